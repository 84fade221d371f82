// The n-th call to the disk fails, n = 1, 2, ...: the failure is reported, and both files are old or both are new.
import * as fs from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { descriptionPathFor, writeTrack } from '../../src/cli/write-track.ts';
import { designTrack } from '../../src/signals/track-design/design-track.ts';

const fault = vi.hoisted(() => ({ left: Number.POSITIVE_INFINITY, calls: [] as string[] }));

vi.mock('node:fs', async (original) => {
  const real = await original<typeof import('node:fs')>();
  const failing = Object.fromEntries(
    (['mkdtempSync', 'openSync', 'writeSync', 'fsyncSync', 'renameSync'] as const).map((name) => [
      name,
      (...words: unknown[]) => {
        fault.calls.push(name);
        if (--fault.left === 0) throw Object.assign(new Error('no space'), { code: 'ENOSPC' });
        return (real[name] as (...words: unknown[]) => unknown)(...words);
      },
    ]),
  );
  return { ...real, ...failing };
});

function trackAt(levelDbfs: number) {
  const designed = designTrack({ kind: 'pair', rateHz: 32_000, levelDbfs });
  if (!designed.ok) throw new Error('the track must be fine');
  return designed.value;
}

test.each([true, false])('with files there before: %s', (before) => {
  const options = { format: '16', seed: 1, onProgress: () => {} } as const;
  for (let n = 1; ; n++) {
    fault.left = Number.POSITIVE_INFINITY;
    const folder = fs.mkdtempSync(join(tmpdir(), 'faults-'));
    const files = { wavPath: join(folder, 'a.wav'), descriptionPath: descriptionPathFor(join(folder, 'a.wav')) };
    const state = () =>
      fs
        .readdirSync(folder)
        .map((name) => `${name} ${fs.readFileSync(join(folder, name)).toString('base64').slice(0, 9000)}`);
    if (before) expect(writeTrack(trackAt(-30), files, options)).toEqual({ ok: true, value: { replaced: false } });
    const old = state();
    fault.left = n;
    fault.calls = [];
    const result = writeTrack(trackAt(-20), files, options);
    const reached = fault.left <= 0;
    fault.left = Number.POSITIVE_INFINITY;
    const now = state();
    fs.rmSync(folder, { recursive: true });
    if (!reached) {
      expect(result).toEqual({ ok: true, value: { replaced: before } });
      expect(now).toHaveLength(2);
      expect(now).not.toEqual(old);
      // Every kind of call had its turn to fail.
      expect(new Set(fault.calls).size).toBe(5);
      expect(n).toBeGreaterThan(10);
      return;
    }
    expect(result).toMatchObject({ ok: false, issues: [{ code: 'drive-full', mend: expect.any(String) }] });
    expect(now).toEqual(old);
  }
});
