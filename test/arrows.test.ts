// The check of the arrows must fire: a check that sees nothing passes for ever.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';

/** Runs the check over a made-up tree of files. */
function arrowsOf(files: Record<string, string>): { status: number | null; said: string } {
  const folder = mkdtempSync(join(tmpdir(), 'kickpanel-arrows-'));
  try {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    const done = spawnSync(process.execPath, ['node_modules/tsx/dist/cli.mjs', 'scripts/arrows.ts', folder], {
      encoding: 'utf8',
    });
    return { status: done.status, said: done.stdout + done.stderr };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe('the check of the arrows', () => {
  test('passes what points to an earlier part', () => {
    const { status, said } = arrowsOf({
      'src/base/a.ts': 'export const a = 1;\n',
      'src/signals/track.ts': "import { a } from '../base/a.ts';\nexport type Track = typeof a;\n",
      'src/practice/p.ts': "import type { Track } from '../signals/track.ts';\nexport type P = Track;\n",
      'src/cli/c.ts': "import 'node:fs';\nimport '../practice/p.ts';\n",
    });
    expect(said).toContain('4 modules, 0 arrows broken');
    expect(status).toBe(0);
  });

  test('names every arrow that points the wrong way, types included', () => {
    const { status, said } = arrowsOf({
      'src/base/a.ts': "import type { S } from '../signals/s.ts';\nexport type A = S;\n",
      'src/signals/s.ts': 'export type S = number;\nexport const s = 1;\n',
      'src/signals/track.ts': 'export const track = 1;\n',
      'src/signals/n.ts': "import 'node:fs';\n",
      'src/electrical/e.ts': "import '../drivers/d.ts';\n",
      'src/drivers/d.ts': 'export {};\n',
      'src/measurement/m.ts': "import './m2.ts';\n",
      'src/measurement/m2.ts': "import './m.ts';\n",
      'src/practice/p.ts': "import '../signals/s.ts';\nimport '../measurement/m.ts';\n",
      'src/practice/q.ts': "import { track } from '../signals/track.ts';\nexport const q = track;\n",
      'src/server/s.ts': "import '../cli/c.ts';\n",
      'src/cli/c.ts': "import '../server/app.ts';\nimport '../server/start.ts';\n",
      'src/server/app.ts': 'export {};\n',
      'src/server/start.ts': 'export {};\n',
      'src/server/client.ts': 'export {};\n',
      'src/web/w.ts': "import '../server/start.ts';\nimport '../server/client.ts';\n",
      'src/elsewhere/x.ts': "import '../base/a.ts';\n",
    });
    expect(status).toBe(1);
    for (const line of [
      'base-imports-earlier-parts-only: src/base/a.ts -> src/signals/s.ts',
      'core-does-no-io: src/signals/n.ts -> fs',
      'electrical-imports-earlier-parts-only: src/electrical/e.ts -> src/drivers/d.ts',
      'no-circles: src/measurement/m.ts',
      'practice-takes-only-the-form-of-a-track: src/practice/p.ts -> src/signals/s.ts',
      'practice-does-not-know-the-reader: src/practice/p.ts -> src/measurement/m.ts',
      'practice-takes-types-only: src/practice/q.ts -> src/signals/track.ts',
      'server-imports-earlier-parts-only: src/server/s.ts -> src/cli/c.ts',
      'the-command-line-only-starts-the-server: src/cli/c.ts -> src/server/app.ts',
      'a-page-knows-the-server-by-its-client: src/web/w.ts -> src/server/start.ts',
      'every-source-has-a-part: src/elsewhere/x.ts',
    ]) {
      expect(said).toContain(line);
    }
    expect(said).not.toContain('src/server/client.ts');
    expect(said).not.toContain('src/cli/c.ts -> src/server/start.ts');
  });

  test('fails when it saw nothing', () => {
    const { status, said } = arrowsOf({ 'src/readme.txt': 'nothing' });
    expect(said).toContain('no module seen');
    expect(status).toBe(1);
  });
});
