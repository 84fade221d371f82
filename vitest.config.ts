import { defineConfig } from 'vitest/config';

const shared = { testTimeout: 60_000, pool: 'threads' as const };

export default defineConfig({
  test: {
    coverage: { provider: 'v8', include: ['src/**'] },
    projects: [
      {
        test: {
          ...shared,
          name: 'modules',
          include: ['src/**/*.test.ts', 'test/**/*.test.ts'],
          exclude: ['test/e2e/**'],
        },
      },
      {
        // The real command, so it is built first; after the rest, because it is also timed.
        test: {
          ...shared,
          name: 'command',
          include: ['test/e2e/**/*.test.ts'],
          globalSetup: ['test/e2e/build.ts'],
          // One file at a time: browsers, servers and clocks would be each other's noise.
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
