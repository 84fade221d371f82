import { describe, expect, test } from 'vitest';
import { at, Bench, provided } from '../../test/job/given.ts';
import type { Command, SeenPart } from './commands/commands.ts';
import { decide } from './commands/decide.ts';
import { contradicted, seenBy } from './contradictions.ts';
import { journalOf } from './journal.ts';

const openJob: Command = { command: 'createJob', name: 'x', purpose: 'car' };
const cover = (state: 'off' | 'resting' | 'fastened'): Command => ({
  command: 'changeCovers',
  covers: [{ cover: 'B', state }],
});
const run = (lengthM: number): Command => ({ command: 'setPlanPart', part: 'run', id: 'R1', value: { lengthM } });
const ben = { who: 'Ben', when: at(90) };

describe('a wish that comes late', () => {
  test('contradicts a cover that somebody else has moved meanwhile, and says which counts', () => {
    const seen = seenBy(new Bench().does(openJob).state, cover('resting'));
    const moved = new Bench().does(openJob, cover('off')).state;
    expect(contradicted(moved, cover('resting'), seen, ben)).toEqual([
      'Cover B: Ben made it resting without knowing that somebody else made it off. The later of both counts: resting.',
    ]);
    expect(contradicted(moved, cover('off'), seen, ben)).toEqual([]);
  });

  test('contradicts nobody where its author had seen how the cover stood', () => {
    const state = new Bench().does(openJob, cover('off')).state;
    expect(contradicted(state, cover('resting'), seenBy(state, cover('resting')), ben)).toEqual([]);
  });

  test('contradicts another reading of the same hold point, not the same reading, and not one that was seen', () => {
    const read = (value: number): Command => ({
      command: 'giveEvidence',
      holdPoints: ['fuse F1 fitted'],
      evidence: { how: 'measured', value, unit: 'A' },
    });
    const fuse: Command = { command: 'setPlanPart', part: 'fuse', id: 'F1', value: { ratedA: 80 } };
    const bench = new Bench().does(openJob, fuse);
    const seen = seenBy(bench.state, read(80));
    const { state } = bench.does(read(60));
    expect(contradicted(state, read(80), seen, ben)).toEqual([
      'fuse F1 fitted: Ben read 80 A and Ann read 60 A, neither knowing of the other. Read it once more together.',
    ]);
    expect(contradicted(state, read(60), seen, ben)).toEqual([]);
    expect(contradicted(state, read(80), seenBy(state, read(80)), ben)).toEqual([]);
  });

  test('is held against a cover and a reading, whatever name and unit the other one used', () => {
    const letter: Command = { command: 'setPlanPart', part: 'cover', id: 'door', value: { letter: 'B' } };
    const bench = new Bench().does(openJob, letter);
    const byId: Command = { command: 'changeCovers', covers: [{ cover: 'door', state: 'resting' }] };
    const seen = seenBy(bench.state, byId);
    expect(contradicted(bench.does(cover('off')).state, byId, seen, ben)).toHaveLength(1);
    const read = (value: number | 'open', unit: 'ohm' | 'mOhm'): Command => ({
      command: 'giveEvidence',
      holdPoints: ['run R1 laid'],
      evidence: { how: 'measured', value, unit },
    });
    const { state } = bench.does(run(4), read(3400, 'mOhm'));
    const unseen = { parts: [], covers: [], evidence: [] };
    expect(contradicted(state, read(3.4, 'ohm'), unseen, ben)).toEqual([]);
    expect(contradicted(state, read('open', 'ohm'), unseen, ben)).toEqual([
      'run R1 laid: Ben read open and Ann read 3400 mOhm, neither knowing of the other. Read it once more together.',
    ]);
  });

  test('tells what its author had seen of a part of the plan, and the plan lists what he had not', () => {
    const bench = new Bench().does(openJob, run(4));
    const seen = seenBy(bench.state, run(6));
    expect(seen.parts).toMatchObject([{ part: 'run', id: 'R1', entry: 'e2' }]);
    bench.does(run(5));
    const journal = journalOf('j1', bench.entries);
    const written = (parts?: SeenPart[]) => {
      const request = { id: 'e4', who: 'Ben', wish: run(6), ...(parts === undefined ? {} : { seen: parts }) };
      const decision = decide(journal, request, provided(9));
      return decision.ok ? decision.value.entries : [];
    };
    expect(written()).toMatchObject([{ data: { changes: [{ seen: { entry: 'e3' } }] } }]);
    const late = written(seen.parts);
    expect(late).toMatchObject([{ data: { changes: [{ seen: { entry: 'e2' } }] } }]);
    const { plan } = journalOf('j1', [...bench.entries, ...late]).state;
    expect(plan.conflicts).toMatchObject([{ entry: 'e4', over: { entry: 'e3' }, lost: { value: { lengthM: 5 } } }]);
  });
});
