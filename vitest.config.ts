import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Half of the time would go into loading the same modules anew for each file: a test leaves nothing behind in them.
    isolate: false,
    maxWorkers: '100%',
    // A browser on a loaded machine is slow; nothing is asserted about time.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts', 'adapters/**/*.ts'],
      reporter: ['text-summary', 'html'],
      reportsDirectory: 'build/coverage',
    },
  },
});
