import { defineConfig } from 'vitest/config';

const shared = { testTimeout: 60_000, pool: 'threads' as const };
/** The built command and the app in a browser. */
const command = { ...shared, globalSetup: ['test/e2e/build.ts'] };
/** These hold a sound card, a clock or the whole machine: beside others they would measure the others. */
const alone = ['call', 'web', 'web-look', 'web-two', 'server'].map((name) => `test/e2e/${name}.test.ts`);

/** These put something else in the place of a module or of a global: what is loaded already would not see it. */
const apart = ['test/faults/**/*.test.ts', 'src/web/shop/known-heads.test.ts'];

export default defineConfig({
  test: {
    coverage: { provider: 'v8', include: ['src/**'] },
    // Leaving one core free, as is usual, would leave half of a small machine idle.
    maxWorkers: '100%',
    projects: [
      {
        test: {
          ...shared,
          name: 'modules',
          include: ['src/**/*.test.ts', 'test/**/*.test.ts'],
          exclude: ['test/e2e/**', ...apart],
          // Modules here keep nothing to themselves, so that one file cannot disturb the next: half the time is saved.
          isolate: false,
        },
      },
      { test: { ...shared, name: 'apart', include: apart } },
      {
        test: {
          ...command,
          name: 'command',
          include: ['test/e2e/**/*.test.ts'],
          exclude: alone,
          sequence: { groupOrder: 1 },
        },
      },
      {
        // One file at a time, after the rest.
        test: { ...command, name: 'alone', include: alone, maxWorkers: 1, sequence: { groupOrder: 2 } },
      },
    ],
  },
});
