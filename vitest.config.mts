import { defineConfig } from 'vitest/config';
import { textImportsOfTests } from './.ci/text-imports.mjs';

export default defineConfig({
  plugins: [textImportsOfTests],
  test: {
    include: ['tests/**/*.test.ts'],
    environment: 'node',
    setupFiles: ['tests/support/seed.ts'],
    testTimeout: 20_000,
    coverage: { provider: 'v8', include: ['server/**', 'grammar/**', 'client/**'] },
  },
});
