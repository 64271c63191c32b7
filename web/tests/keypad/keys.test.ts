import { expect, test } from "vitest";
import { keyFromKeyboard, press, shownText, typedLength, type Key, type Rules } from "../../src/keypad/keys";
import { pressNumber, typedNumber } from "../../src/keypad/number";

const READING: Rules = { units: "imperial", goesOn: true };
const METRIC: Rules = { units: "metric", goesOn: true };
const WALL: Rules = { units: "imperial" };

function typed(keys: readonly Key[], rules: Rules) {
  return keys.reduce((state, key) => press(state.text, key, rules), { text: "", finished: false });
}

test("a reading in feet and inches takes four taps and is finished by its sixteenth", () => {
  const after = typed(["3", "feet", "5", "part-5"], READING);
  expect(after.finished).toBe(true);
  expect(typedLength(after.text, "imperial")).toBe(1049.3375);
  expect(shownText(after.text, "imperial")).toBe("3\u2032 5 5/16\u2033");
});

test("a reading in inches takes three taps and a sixteenth, or next where it is whole", () => {
  expect(typed(["4", "1", "part-8"], READING)).toEqual({ text: "41 8/16", finished: true });
  expect(typed(["4", "1", "next"], READING)).toEqual({ text: "41", finished: true });
});

test("a reading in millimetres is finished by its fourth digit, a shorter one by next", () => {
  expect(typed(["1", "0", "4", "9"], METRIC).finished).toBe(true);
  expect(typed(["9", "5", "0"], METRIC).finished).toBe(false);
  expect(typed(["9", "5", "0", "next"], METRIC)).toEqual({ text: "950", finished: true });
  expect(typed(["9", "5", "0", "point", "5"], METRIC)).toEqual({ text: "950.5", finished: false });
});

test("a wall's length waits for the person, sixteenth or not", () => {
  expect(typed(["1", "2", "feet", "3", "part-8"], WALL).finished).toBe(false);
  expect(typed(["next"], WALL)).toEqual({ text: "", finished: false });
});

test("taking back undoes every key in turn, down to nothing", () => {
  const keys: readonly Key[] = ["1", "2", "feet", "1", "1", "part-15"];
  const texts = keys.map((_, index) => typed(keys.slice(0, index + 1), WALL).text);
  let text = texts.at(-1) ?? "";
  for (const before of [...texts.slice(0, -1).reverse(), ""]) {
    text = press(text, "back", WALL).text;
    expect(text).toBe(before);
  }
  expect(press("", "back", WALL).text).toBe("");
});

test("keys that mean nothing where they stand change nothing", () => {
  expect(press("41 8/16", "3", WALL).text).toBe("41 8/16");
  expect(press("3' 5", "feet", WALL).text).toBe("3' 5");
  expect(press("", "feet", WALL).text).toBe("");
  expect(press("950", "part-3", METRIC).text).toBe("950");
  expect(press("41", "minus", WALL).text).toBe("41");
  expect(press("3.5", "point", WALL).text).toBe("3.5");
});

test("thirteen inches after feet are no length, so next stays asleep", () => {
  expect(typedLength("3' 13", "imperial")).toBeNull();
  expect(press("3' 13", "next", READING).finished).toBe(false);
});

test("the minus turns a height over and back", () => {
  const rules: Rules = { units: "metric", signed: true };
  const below = press("12", "minus", rules).text;
  expect(typedLength(below, "metric")).toBe(-12);
  expect(press(below, "minus", rules).text).toBe("12");
});

test("a real keyboard stands in for the pad", () => {
  expect(["7", "'", "Backspace", "Enter", "-", ","].map(keyFromKeyboard)).toEqual(["7", "feet", "back", "next", "minus", "point"]);
  expect(keyFromKeyboard("a")).toBeNull();
});

test("plain numbers: digits, one point, a minus where it may stand", () => {
  const keys: readonly Key[] = ["point", "5", "point", "2"];
  const text = keys.reduce((all, key) => pressNumber(all, key, false).text, "");
  expect(text).toBe("0.52");
  expect(pressNumber("5", "minus", false).text).toBe("5");
  expect(pressNumber("5", "minus", true).text).toBe("-5");
  expect(typedNumber("-")).toBeNull();
  expect(typedNumber("-4")).toBe(-4);
});
