import { defineConfig } from 'vitest/config';

/** Demonstrations: they leave something to look at, and are no part of `npm test`. */
export default defineConfig({
  test: {
    include: ['tests/demo/**/*.demo.ts'],
    testTimeout: 600_000,
    hookTimeout: 180_000,
    // The library writes dates of the platform's own marks in the zone of the process.
    env: { TZ: 'Europe/Lisbon' },
  },
});
