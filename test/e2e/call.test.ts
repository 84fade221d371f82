// The call itself: help, version, words that cannot be understood, the statuses and the forms that scripts rely on.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Workbench, workbench } from './kickpanel.ts';

let bench: Workbench;
beforeAll(() => {
  bench = workbench();
});
afterAll(() => bench.clear());

describe('help', () => {
  test('nothing, --help, -h and help all show the commands', () => {
    const shown = bench.kickpanel('--help');
    expect(shown.status).toBe(0);
    expect(shown.stderr).toBe('');
    expect(shown.stdout).toContain('Usage: kickpanel COMMAND');
    for (const words of [[], ['-h'], ['help']]) expect(bench.kickpanel(...words)).toEqual(shown);
  });

  test('every command has help with an example, within 80 columns', () => {
    const { commands } = JSON.parse(bench.kickpanel('--help', '--json').stdout);
    expect(commands.length).toBeGreaterThan(0);
    for (const { name } of commands) {
      const { status, stdout } = bench.kickpanel(name, '--help');
      expect(status).toBe(0);
      expect(stdout).toContain(`Usage: kickpanel ${name}`);
      expect(stdout).toMatch(new RegExp(`Example:\n  kickpanel ${name} `));
      for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
      expect(bench.kickpanel('help', name).stdout).toBe(stdout);
    }
  });

  test('help with --json is one object', () => {
    const { stdout } = bench.kickpanel('schema', '--help', '--json');
    expect(JSON.parse(stdout)).toMatchObject({ name: 'schema', options: [] });
  });

  test('is there within 0.3 s, or within thrice the time of an empty node on a busy machine', () => {
    const seconds = (words: string[]) => {
      const times = Array.from({ length: 5 }, () => {
        const start = process.hrtime.bigint();
        spawnSync(process.execPath, words);
        return Number(process.hrtime.bigint() - start) / 1e9;
      });
      return times.sort((a, b) => a - b)[2];
    };
    const allowed = Math.max(0.3, 3 * seconds(['-e', '0']));
    const { commands } = JSON.parse(bench.kickpanel('--help', '--json').stdout);
    for (const words of [[], ...commands.map(({ name }: { name: string }) => [name])]) {
      expect(seconds(['bin/kickpanel', ...words, '--help']), words.join()).toBeLessThan(allowed);
    }
  });
});

describe('version', () => {
  test('is that of package.json', () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
    expect(bench.kickpanel('--version').stdout).toBe(`${version}\n`);
    expect(JSON.parse(bench.kickpanel('--version', '--json').stdout)).toEqual({ version });
  });
});

describe('a call that cannot be understood', () => {
  test('ends with 2 and names the nearest command on stderr', () => {
    const { status, stdout, stderr } = bench.kickpanel('shema');
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain('Did you mean schema?');
  });

  test('with --json is one error object on stdout and nothing on stderr', () => {
    const { status, stdout, stderr } = bench.kickpanel('shema', '--json');
    expect(status).toBe(2);
    expect(stderr).toBe('');
    const { error } = JSON.parse(stdout);
    expect(error).toMatchObject({ code: 'unknown-command', where: 'shema' });
    expect(error.mend).toContain('Did you mean schema?');
  });

  test('names the nearest option', () => {
    const { status, stderr } = bench.kickpanel('schema', '--jsn');
    expect(status).toBe(2);
    expect(stderr).toContain('Did you mean --json?');
  });

  test('is told where an option before the command went wrong', () => {
    const { status, stderr } = bench.kickpanel('--verison');
    expect(status).toBe(2);
    expect(stderr).toContain('Did you mean --version?');
  });

  test('--json may also stand before the command', () => {
    const { status, stdout } = bench.kickpanel('--json', 'schema');
    expect(status).toBe(0);
    expect(JSON.parse(stdout).schemas.length).toBeGreaterThan(1);
  });
});

describe('a fault of ours', () => {
  // Something that the command needs is made to throw, as a mistake in it would.
  const planted = 'Object.fromEntries = () => { throw new RangeError("planted"); };\n';
  const environment = () => ({ NODE_OPTIONS: `--import=${bench.write('planted.mjs', planted)}` });

  test('ends with 3, in words and without a stack', () => {
    const { status, stdout, stderr } = bench.kickpanelIn(environment(), 'schema');
    expect(status).toBe(3);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/^kickpanel: planted\n {2}This is a fault of Kickpanel/);
    expect(stderr).not.toMatch(/^ +at /m);
  });

  test('is one error object with --json', () => {
    const { status, stdout, stderr } = bench.kickpanelIn(environment(), 'schema', '--json');
    expect(status).toBe(3);
    expect(stderr).toBe('');
    expect(JSON.parse(stdout).error).toMatchObject({ code: 'internal', message: 'planted' });
  });

  test('shows its stack to those who ask for it', () => {
    const { stderr } = bench.kickpanelIn({ ...environment(), KICKPANEL_DEBUG: '1' }, 'schema');
    expect(stderr).toMatch(/^ +at /m);
  });
});

test('a checkout that is not built yet says how to build it', () => {
  mkdirSync(bench.path('bin'));
  bench.write('bin/kickpanel', readFileSync('bin/kickpanel'));
  bench.write('package.json', '{"type":"module"}');
  const { status, stderr } = spawnSync(process.execPath, [bench.path('bin/kickpanel')], { encoding: 'utf8' });
  expect(status).toBe(3);
  expect(stderr).toContain('npm ci');
});

describe('a pipe that closes early', () => {
  test('is no error', () => {
    const { stderr, status } = spawnSync('bash', ['-c', 'set -o pipefail; node bin/kickpanel schema track | true'], {
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });
});
