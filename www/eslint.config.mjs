// Lints of the page's modules. The rules are the linter's own choice.
import js from "../.tools/node_modules/@eslint/js/src/index.js";

export default [
  js.configs.recommended,
  {
    linterOptions: { reportUnusedDisableDirectives: "error" },
    // Names that nobody declared are found against the browsers' types (jsconfig.json).
    rules: { "no-undef": "off" },
  },
];
