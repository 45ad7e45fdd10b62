// What the scripts of the handbook are held to, beside the types that tsc checks.

import js from "@eslint/js";
import globals from "globals";

const SERVED = ["site_src/theme/**/*.mjs"];
const WORKERS = ["site_src/theme/service-worker.mjs", "site_src/theme/assets/browser/daybook/reader.mjs", "site_src/theme/assets/browser/daybook/codes/code-reader.mjs", "site_src/theme/assets/browser/engine/worker.mjs", "site_src/theme/assets/browser/engine/small-worker.mjs", "site_src/theme/assets/browser/reading/search.mjs"];

// What belongs to the browser is called, never replaced by a function of ours.
const NOT_REPLACED = ["fetch", "Worker", "XMLHttpRequest", "WebAssembly", "postMessage", "setTimeout", "print"];

export default [
  { ignores: ["site_src/theme/assets/qr/", ".cache/", ".venv/", "node_modules/", "site/", "site.new/", "site.old/"] },
  js.configs.recommended,
  {
    files: SERVED,
    languageOptions: { globals: globals.browser },
    rules: {
      "array-callback-return": "error",
      complexity: ["error", 16],
      "consistent-this": "error",
      curly: ["error", "multi-line"],
      "default-case-last": "error",
      eqeqeq: "error",
      "max-lines": ["error", 400],
      "max-params": ["error", 5],
      "no-alert": "error",
      "no-console": ["error", { allow: ["warn", "error"] }],
      "no-else-return": ["error", { allowElseIf: true }],
      "no-eval": "error",
      "no-extend-native": "error",
      "no-global-assign": "error",
      "no-implied-eval": "error",
      "no-new-func": "error",
      "no-param-reassign": "error",
      "no-restricted-globals": ["error", "event", "name", "status"],
      "no-restricted-syntax": [
        "error",
        ...["self", "window", "globalThis", "scope", "worker"].flatMap((owner) => [
          {
            selector: `AssignmentExpression[left.object.name="${owner}"][left.property.name=/^(${NOT_REPLACED.join("|")})$/]`,
            message: "A function of the browser is called, not replaced.",
          },
        ]),
        { selector: `AssignmentExpression[left.object.name=/^(${NOT_REPLACED.join("|")})$/]`, message: "A function of the browser is called, not replaced." },
        { selector: `AssignmentExpression[left.object.property.name="prototype"]`, message: "A function of the browser is called, not replaced." },
      ],
      "no-self-compare": "error",
      "no-shadow": ["error", { builtinGlobals: false }],
      "no-throw-literal": "error",
      "no-undef-init": "error",
      "no-unneeded-ternary": "error",
      "no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      "no-use-before-define": ["error", { functions: false, classes: false, variables: false }],
      "no-useless-return": "error",
      "no-var": "error",
      "object-shorthand": "error",
      "prefer-const": "error",
      "prefer-template": "error",
      "require-atomic-updates": "off",
    },
  },
  { files: WORKERS, languageOptions: { globals: { ...globals.worker, ...globals.serviceworker } } },
  { files: ["tests/**/*.{js,mjs}", "bench/**/*.{js,mjs}"], languageOptions: { globals: { ...globals.browser, helpers: "readonly" } } },
  { files: ["site_src/*.mjs", "site_src/small/*.mjs"], languageOptions: { globals: globals.node } },
];
