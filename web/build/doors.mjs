/** The doors between the rooms: what each room may import, by the first folder under src. Everything else is shut. */
const MAY_IMPORT = {
  units: ["units"],
  wire: ["wire"],
  words: ["words", "units", "wire"],
  theme: ["theme"],
  state: ["state", "wire", "units"],
  drawing: ["drawing", "state", "wire", "units", "words", "theme"],
  plots: ["plots", "drawing", "state", "wire", "units", "words", "theme"],
  keypad: ["keypad", "state", "wire", "units", "words", "theme"],
  screens: ["screens", "plots", "drawing", "keypad", "state", "wire", "units", "words", "theme"],
  carrying: ["carrying", "wire"],
  storage: ["storage", "carrying", "wire"],
  sync: ["sync", "storage", "wire"],
  pictures: ["pictures", "wire"],
  rescue: ["rescue", "storage", "wire"],
  "engine-worker": ["engine-worker"],
  bridge: ["bridge", "engine-worker"],
  "service-worker": ["service-worker"],
};
const ROOMS = [...Object.keys(MAY_IMPORT), "app"];

/**
 * One rule a room: a relative import that climbs out of it may only enter the rooms it may use.
 * @param {string} room
 * @param {readonly string[]} allowed
 * @returns {import("eslint").Linter.Config}
 */
function doorsOf(room, allowed) {
  const shut = ROOMS.filter((other) => !allowed.includes(other));
  const message = `${room} may import from: ${allowed.join(", ")}`;
  const patterns = [{ regex: `^\\.\\.?/(.*/)?(${shut.join("|")})(/|$)`, message }];
  const dynamic = {
    selector: `ImportExpression > Literal[value=/^\\.\\.?\\u002f(.*\\u002f)?(${shut.join("|")})(\\u002f|$)/]`,
    message,
  };
  return {
    files: [`src/${room}/**/*.{ts,tsx}`],
    rules: { "no-restricted-imports": ["error", { patterns }], "no-restricted-syntax": ["error", dynamic] },
  };
}

export const doors = Object.entries(MAY_IMPORT).map(([room, allowed]) => doorsOf(room, allowed));
