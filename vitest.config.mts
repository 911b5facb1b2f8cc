import { defineConfig } from 'vitest/config';
import { isOnPath } from './.ci/programs.mjs';
import { textImportsOfTests } from './.ci/text-imports.mjs';
import { workbenchProgram } from './.ci/workbench.mjs';

/** Real editors take seconds, not milliseconds. */
const EDITOR_PATIENCE = 120_000;

/** Everything that needs no editor: runs first, in parallel. */
const fast = {
  extends: true as const,
  test: {
    name: 'fast',
    include: ['tests/**/*.test.ts'],
    // What drives a program that is not there is left out, as `npm test` says.
    exclude: ['tests/editor/**', ...(isOnPath('nvim') ? [] : ['tests/neovim/**'])],
    testTimeout: 60_000,
  },
};

/** Real editors, one after the other once the rest is done; left out where none is installed, as `npm test` says. */
const editor = {
  extends: true as const,
  test: {
    name: 'editor',
    include: workbenchProgram() === null ? [] : ['tests/editor/**/*.test.ts'],
    testTimeout: EDITOR_PATIENCE,
    // An editor on a busy machine may draw later than anyone waits; what is wrong is wrong twice.
    retry: 1,
    hookTimeout: EDITOR_PATIENCE,
    expect: { poll: { timeout: 40_000, interval: 100 } },
    fileParallelism: false,
    sequence: { groupOrder: 1 },
  },
};

export default defineConfig({
  plugins: [textImportsOfTests],
  test: {
    environment: 'node',
    setupFiles: ['tests/support/seed.ts'],
    projects: [fast, editor],
    passWithNoTests: true,
    coverage: { provider: 'v8', include: ['server/**', 'grammar/**', 'client/**'] },
  },
});
