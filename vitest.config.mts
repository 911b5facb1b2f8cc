import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    environment: 'node',
    setupFiles: ['tests/support/seed.ts'],
    testTimeout: 20_000,
    coverage: { provider: 'v8', include: ['server/**', 'grammar/**', 'client/**'] },
  },
});
