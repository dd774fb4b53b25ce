// Rules for the screens' code that neither the compilers nor the formatter know.

import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import { defineConfig } from 'eslint/config';
import globals from 'globals';
import ts from 'typescript-eslint';

import svelteConfig from './svelte.config.js';

export default defineConfig(
  { ignores: ['dist', 'src/wire', 'src/messages/generated'] },
  js.configs.recommended,
  ts.configs.recommended,
  svelte.configs.recommended,
  {
    languageOptions: { globals: globals.browser },
    rules: {
      '@typescript-eslint/no-unused-vars': ['error', { varsIgnorePattern: '^_$', argsIgnorePattern: '^_' }],
      // A set that no screen shows is a plain one.
      'svelte/prefer-svelte-reactivity': 'off',
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser, svelteConfig } },
  },
  // With types in modules only: with components too it takes minutes, and svelte-check
  // has looked at their types already.
  {
    files: ['**/*.ts'],
    extends: [ts.configs.recommendedTypeCheckedOnly],
    languageOptions: { parserOptions: { projectService: true, extraFileExtensions: ['.svelte'] } },
  },
  {
    files: ['**/*.test.ts'],
    rules: {
      // A stand-in is as asynchronous as what it stands in for.
      '@typescript-eslint/require-await': 'off',
      // Matchers that match anything are of any type.
      '@typescript-eslint/no-unsafe-assignment': 'off',
    },
  },
);
