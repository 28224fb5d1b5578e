import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

const neverMixed = 'Absent, void and 0 never mix: say what an absent value means.';

export default ts.config(
  { ignores: ['dist/', 'coverage/', 'fixtures/', 'node_modules/'] },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  js.configs.recommended,
  ts.configs.strictTypeChecked,
  svelte.configs.recommended,
  {
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      eqeqeq: 'error',
      'no-console': 'error',
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-misused-spread': ['error', { allow: ['string'] }],
      // Indexing is read without `undefined`, so a check of what an index gave is no idle one.
      '@typescript-eslint/no-unnecessary-condition': 'off',
      '@typescript-eslint/no-unnecessary-boolean-literal-compare': 'off',
    },
  },
  {
    files: ['src/**/*.ts', 'web/**/*.ts', 'web/**/*.svelte'],
    rules: {
      'no-restricted-syntax': [
        'error',
        { selector: "LogicalExpression[operator='??'][right.value=0]", message: neverMixed },
        { selector: "UnaryExpression[operator='+']", message: neverMixed },
        {
          selector: "CallExpression[callee.name='Number'][arguments.0.value=null]",
          message: neverMixed,
        },
      ],
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: {
      globals: globals.browser,
      parserOptions: { extraFileExtensions: ['.svelte'], parser: ts.parser, svelteConfig },
    },
  },
  {
    // Arguments of events in templates arrive as `any`.
    files: ['**/*.svelte'],
    rules: {
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
  { files: ['test/**'], rules: { 'no-console': 'off' } },
  {
    files: ['**/*.js', '**/*.mjs', '**/*.d.mts'],
    extends: [ts.configs.disableTypeChecked],
    languageOptions: { globals: globals.node },
  },
);
