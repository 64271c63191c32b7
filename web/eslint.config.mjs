import js from "@eslint/js";
import tseslint from "typescript-eslint";
import { doors } from "./build/doors.mjs";

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
  ...doors,
);
