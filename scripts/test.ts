// Everything `npm test` checks, one step after the other, all of them even after one has failed. The last line counts.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const folder = mkdtempSync(join(tmpdir(), 'kickpanel-test-'));
const resultFile = join(folder, 'tests.json');
const modules = 'node_modules';

/** What is checked, in words, and the call: a script of ours or of a tool, run by this very node. */
const steps: [string, string[]][] = [
  ['Types', [`${modules}/typescript/bin/tsc`, '-p', '.']],
  ['Style and lint', [`${modules}/@biomejs/biome/bin/biome`, 'check', '--error-on-warnings', '.']],
  ['Arrows between the parts', [`${modules}/tsx/dist/cli.mjs`, 'scripts/arrows.ts']],
  ['Dead files, exports and dependencies', [`${modules}/knip/bin/knip.js`]],
  ['Build', ['scripts/build.mjs']],
  [
    'Tests',
    [`${modules}/vitest/vitest.mjs`, 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${resultFile}`],
  ],
];

interface TestCounts {
  numPassedTests: number;
  numFailedTests: number;
  numFailedTestSuites: number;
  numPendingTests: number;
  numTodoTests: number;
}

/** Counts of the test runner; a file that could not even be loaded, and a run that left no result, count as one failure. */
function testCounts(): { passed: number; failed: number; skipped: number } {
  try {
    const counts = JSON.parse(readFileSync(resultFile, 'utf8')) as TestCounts;
    return {
      passed: counts.numPassedTests,
      failed: Math.max(counts.numFailedTests, counts.numFailedTestSuites > 0 ? 1 : 0),
      skipped: counts.numPendingTests + counts.numTodoTests,
    };
  } catch {
    return { passed: 0, failed: 1, skipped: 0 };
  }
}

const failedSteps: string[] = [];
for (const [title, call] of steps) {
  process.stdout.write(`\n== ${title}\n`);
  const done = spawnSync(process.execPath, call, { stdio: 'inherit' });
  if (done.status !== 0) failedSteps.push(title);
}
const { passed, failed, skipped } = testCounts();
rmSync(folder, { recursive: true, force: true });
if (skipped > 0) failedSteps.push(`${skipped} tests skipped, none may be`);

const checksFailed = failedSteps.filter((title) => title !== 'Tests' || failed === 0).length;
process.stdout.write(failedSteps.length > 0 ? `\nFailed: ${failedSteps.join(', ')}\n` : '\nAll checks passed\n');
process.stdout.write(`${passed} passed, ${failed + checksFailed} failed\n`);
process.exitCode = failedSteps.length > 0 ? 1 : 0;
