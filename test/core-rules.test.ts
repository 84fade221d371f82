// The lint rules that keep clock, chance and I/O out of the core must fire there, and only there.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const parts = ['base', 'plan', 'signals', 'electrical', 'drivers', 'measurement', 'wiring', 'tuning', 'practice'];
const coreParts = [...parts, 'charts', 'job', 'report'];

/** Complaints about made-up files under the project's own rules, as `path: what`. */
function complaints(files: Record<string, string>): string[] {
  const folder = mkdtempSync(join(tmpdir(), 'kickpanel-rules-'));
  try {
    cpSync('biome.json', join(folder, 'biome.json'));
    cpSync('scripts/no-chance.grit', join(folder, 'scripts/no-chance.grit'));
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    const call = [
      resolve('node_modules/@biomejs/biome/bin/biome'),
      'lint',
      '--vcs-enabled=false',
      '--reporter=json',
      'src',
    ];
    const { stdout } = spawnSync(process.execPath, [...call, '--max-diagnostics=none'], {
      cwd: folder,
      encoding: 'utf8',
    });
    const { diagnostics } = JSON.parse(stdout) as {
      diagnostics: { category: string; severity: string; location: { path: string } }[];
    };
    return diagnostics
      .filter(({ severity }) => severity === 'error')
      .map(({ category, location }) => `${location.path}: ${category}`);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe('in the core', () => {
  test('each part may neither ask the time nor throw dice', () => {
    const files = Object.fromEntries(
      coreParts.map((part) => [`src/${part}/x.ts`, 'export const x = Date.now();\nexport const y = Math.random();\n']),
    );
    const found = complaints(files);
    for (const part of coreParts) {
      expect(found).toContain(`src/${part}/x.ts: lint/style/noRestrictedGlobals`);
      expect(found).toContain(`src/${part}/x.ts: plugin`);
    }
    expect(found.length).toBe(2 * coreParts.length);
  });

  test('every global on the list is refused', () => {
    const rules = readFileSync('biome.json', 'utf8');
    const banned = Object.keys(JSON.parse(/"deniedGlobals": (\{[^}]*\})/.exec(rules)?.[1] ?? '{}'));
    expect(banned.length).toBeGreaterThan(20);
    const files = Object.fromEntries(
      banned.map((name) => [`src/base/${name.toLowerCase()}.ts`, `export const x: unknown = ${name};\n`]),
    );
    const found = complaints(files);
    for (const name of banned) {
      expect(found).toContain(`src/base/${name.toLowerCase()}.ts: lint/style/noRestrictedGlobals`);
    }
  });

  test('a test may read files and clocks, but no dice', () => {
    const text = 'export const x = [process.argv, Date.now(), Math.random()];\n';
    expect(complaints({ 'src/base/x.test.ts': text })).toEqual(['src/base/x.test.ts: plugin']);
  });
});

test('the doors may do all of it', () => {
  const text = 'export const x = [process.argv, Date.now(), Math.random()];\n';
  expect(complaints({ 'src/cli/x.ts': text, 'src/server/x.ts': text })).toEqual([]);
});
