/** A place on earth as it is typed or copied out of a map. */
export interface PlaceOnEarth {
  readonly latitude: number;
  readonly longitude: number;
}

const NUMBER = String.raw`([+-]?\d{1,3}(?:[.,]\d+)?)`;
/** A comma alone parts two numbers only where it cannot be a decimal mark. */
const BETWEEN = String.raw`(?:\s*;\s*|,\s+|\s+|,(?=[+-]|\d+\.))`;
const BOTH = new RegExp(String.raw`^${NUMBER}\s*°?\s*([NSns]?)${BETWEEN}${NUMBER}\s*°?\s*([EWOewo]?)$`);
const POLE = 90;
const HALF_ROUND = 180;

/** `41.88, -87.63`, `41,88; -87,63` and `41.88 N 87.63 W` are one place. Null for anything else, and beyond a pole. */
export function placeOnEarth(typed: string): PlaceOnEarth | null {
  const found = BOTH.exec(typed.trim());
  if (!found) return null;
  const [, north = "", side = "", east = "", hand = ""] = found;
  const latitude = degreesFrom(north, /s/i.test(side));
  const longitude = degreesFrom(east, /[wo]/i.test(hand));
  return Math.abs(latitude) <= POLE && Math.abs(longitude) <= HALF_ROUND ? { latitude, longitude } : null;
}

function degreesFrom(text: string, isOther: boolean): number {
  const degrees = Number(text.replace(",", "."));
  return isOther ? -degrees : degrees;
}
