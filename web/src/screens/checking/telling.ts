/** Figures of the check in words that several of its parts use. */
import { numberText } from "../../units";
import { reader } from "../../words";

/** A share as whole percent; what is not quite all is never told as all, nor what is hardly any as none. */
export function percentText(share: number): string {
  const whole = Math.round(share * 100);
  const about = share < 1 && whole === 100 ? "> 99" : share > 0 && whole === 0 ? "< 1" : numberText(whole, 0, reader.value.language);
  return `${about}\u202f%`;
}

/** An F-number, to one decimal as it is told in reports. */
export function fText(value: number): string {
  return numberText(value, 1, reader.value.language);
}
