import js from "@eslint/js";
import tseslint from "typescript-eslint";

/** The doors between the rooms: what each room may import, by the first folder under src. Everything else is shut. */
const MAY_IMPORT = {
  units: ["units"],
  wire: ["wire"],
  words: ["words", "units", "wire"],
  theme: ["theme"],
  state: ["state", "wire", "units"],
  drawing: ["drawing", "state", "wire", "units", "words", "theme"],
  keypad: ["keypad", "state", "wire", "units", "words", "theme"],
  screens: ["screens", "drawing", "keypad", "state", "wire", "units", "words", "theme"],
  storage: ["storage", "wire"],
  sync: ["sync", "storage", "wire"],
  "engine-worker": ["engine-worker"],
  bridge: ["bridge", "engine-worker"],
  "service-worker": ["service-worker"],
};
const ROOMS = [...Object.keys(MAY_IMPORT), "app"];

/** One rule a room: a relative import that climbs out of it may only enter the rooms it may use. */
function doorsOf([room, allowed]) {
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

export default tseslint.config(
  { ignores: ["dist", "node_modules", "src/wire/generated"] },
  { linterOptions: { reportUnusedDisableDirectives: "error" } },
  {
    files: ["**/*.{ts,tsx}"],
    extends: [js.configs.recommended, ...tseslint.configs.strictTypeChecked, ...tseslint.configs.stylisticTypeChecked],
    languageOptions: {
      parserOptions: {
        project: ["tsconfig.json", "tsconfig.engine-worker.json", "tsconfig.service-worker.json", "tsconfig.tests.json"],
      },
    },
    rules: {
      "max-lines": ["error", { max: 300 }],
      "@typescript-eslint/no-unused-vars": ["error", { varsIgnorePattern: "^_", argsIgnorePattern: "^_" }],
      "@typescript-eslint/restrict-template-expressions": ["error", { allowNumber: true }],
      "@typescript-eslint/no-confusing-void-expression": ["error", { ignoreArrowShorthand: true }],
      "@typescript-eslint/no-unnecessary-type-parameters": "off", // it miscounts a parameter that ties a key to its value
      "@typescript-eslint/non-nullable-type-assertion-style": "off", // its remedy is forbidden by another rule
      "@typescript-eslint/dot-notation": "off", // the compiler asks for brackets where a key comes from an index
    },
  },
  ...Object.entries(MAY_IMPORT).map(doorsOf),
);
