// What the linter holds every script to: eslint's own recommended rules, and what keeps slips out that types do not.
import js from "@eslint/js";
import globals from "globals";

const packed = Object.fromEntries(["PROGRAM", "WASM", "CODE", "LISTENING", "NOTEBOOK", "PICTURE", "SHEET", "DRAWN_WORDS", "WORKER", "TAP", "HEARING", "VERSION", "FILES", "LATER",
  "LANGUAGES", "PAGE_WORDS", "LISTENING_WORDS", "Module"].map((name) => [name, "readonly"])); // globals.d.ts
export default [
  { ignores: ["**/node_modules/**", ".build/**"] },
  js.configs.recommended,
  {
    languageOptions: { ecmaVersion: 2024, globals: { ...globals.browser, ...globals.node, ...globals.serviceworker, registerProcessor: "readonly", AudioWorkletProcessor: "readonly", ...packed } },
    rules: { eqeqeq: "error", "no-var": "error", "prefer-const": "error", "no-implicit-globals": "off", "no-unused-vars": ["error", { caughtErrors: "none" }] },
  },
];
