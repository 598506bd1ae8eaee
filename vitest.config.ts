import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts', 'adapters/**/*.ts'],
      reporter: ['text-summary', 'html'],
      reportsDirectory: 'build/coverage',
    },
  },
});
