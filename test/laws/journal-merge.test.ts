// Two devices that exchange entries, in any order and as often as they like, come to the same job.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Entry } from '../../src/job/entries.ts';
import { holdPointsOf } from '../../src/job/hold-points/hold-points.ts';
import { journalOf } from '../../src/job/journal.ts';
import { understood } from '../../src/job/lifts.ts';
import { inMergeOrder } from '../../src/job/merge-order.ts';
import { evolve, evolved, initialState } from '../../src/job/projections/evolve.ts';
import { at, entry } from '../job/given.ts';

const seed = 20_260_304;

const opening = entry('open', 'job-created', { name: 'Law', purpose: 'car' });

/** Anything that two devices may do, with clocks that do not agree and names that meet. */
const someEntry = fc
  .record({
    device: fc.constantFrom('bench', 'tablet'),
    sequence: fc.integer({ min: 1, max: 6 }),
    minutes: fc.integer({ min: -3, max: 5 }),
    take: fc.constantFrom('T1', 'T2'),
    cover: fc.constantFrom('A', 'B'),
    state: fc.constantFrom('off', 'resting', 'fastened'),
    what: fc.integer({ min: 0, max: 8 }),
    target: fc.integer({ min: 0, max: 11 }),
  })
  .map(({ device, sequence, minutes, take, cover, state, what, target }) => ({
    device,
    sequence,
    minutes,
    take,
    cover,
    state,
    what,
    target,
  }));

const someJournal = fc.array(someEntry, { maxLength: 12 }).map((wishes): Entry[] => [
  opening,
  ...wishes.map(({ device, sequence, minutes, take, cover, state, what, target }, n) => {
    const more = { device, sequence, when: at(minutes) };
    const hash = '0'.repeat(64);
    const all: [string, object][] = [
      [
        'take-recorded',
        {
          take,
          name: `take ${n}`,
          recording: hash,
          bytes: 1,
          track: hash,
          covers: [],
          level: { reference: 'full-scale' },
        },
      ],
      ['take-noted', { take, note: `about ${take}`, kept: n % 2 === 0 }],
      ['covers-changed', { covers: [{ cover, state }] }],
      ['note-added', { text: `note ${n}` }],
      ['undone', { entry: `e${target}` }],
      ['job-renamed', { name: `name ${n}` }],
      ['seat-heated', { degrees: n }],
      ['plan-changed', { changes: [{ change: { part: 'ground', id: 'G1', value: { id: 'G1', lengthM: n / 10 } } }] }],
      ['evidence-given', { holdPoints: ['ground G1 holds'], evidence: { how: 'seen', name: `person ${n}` } }],
    ];
    const [kind, data] = all[what];
    return entry(`e${n}`, kind, data as Entry['data'], more);
  }),
]);

const shuffled = (entries: Entry[]) =>
  fc.shuffledSubarray(entries, { minLength: entries.length, maxLength: entries.length });

test('whatever order entries arrive in, the job is the same', () => {
  fc.assert(
    fc.property(
      someJournal.chain((entries) => fc.tuple(fc.constant(entries), shuffled(entries))),
      ([entries, other]) => {
        expect(journalOf('j1', other).state).toEqual(journalOf('j1', entries).state);
        expect(holdPointsOf(journalOf('j1', other).state)).toEqual(holdPointsOf(journalOf('j1', entries).state));
        expect(inMergeOrder(other)).toEqual(inMergeOrder(entries));
      },
    ),
    { seed, numRuns: 300 },
  );
});

test('no entry is lost, and none counts twice', () => {
  fc.assert(
    fc.property(someJournal, (entries) => {
      const { state, entries: kept, withdrawn } = journalOf('j1', entries);
      expect([...kept.keys()].sort()).toEqual(entries.map(({ id }) => id).sort());
      expect(state.entries).toBe(entries.length);
      const counting = (kind: string) => entries.filter((e) => e.kind === kind && !withdrawn.has(e.id));
      expect(state.notes).toHaveLength(counting('note-added').length);
      const takes = new Set(counting('take-recorded').map(({ data }) => data.take));
      expect(new Set(state.takes.map(({ take }) => take))).toEqual(takes);
    }),
    { seed, numRuns: 300 },
  );
});

test('what speaks of a take reaches it, though a slow clock puts it before', () => {
  const take = {
    take: 'T1',
    name: 'T',
    recording: '0'.repeat(64),
    bytes: 1,
    track: '0'.repeat(64),
    covers: [],
    level: { reference: 'full-scale' },
  };
  const noted = entry('n', 'take-noted', { take: 'T1', note: 'early' }, { device: 'tablet', when: at(1) });
  const recorded = entry('t', 'take-recorded', take, { when: at(2), sequence: 2 });
  expect(journalOf('j1', [opening, noted, recorded]).state.takes[0].notes).toMatchObject([{ text: 'early' }]);
});

test('the job that opens first is the job, whatever the clocks say', () => {
  const early = entry('n', 'note-added', { text: 'before the clock was set' }, { device: 'tablet', when: at(-60) });
  expect(journalOf('j1', [early, opening]).state).toMatchObject({ name: 'Law', notes: [{ entry: 'n' }] });
});

test('entry by entry or all at once, the job is the same, and nothing given is changed', () => {
  fc.assert(
    fc.property(someJournal, (entries) => {
      const known = entries.map(understood).filter((entry) => entry !== null);
      const before = structuredClone(known);
      const start = initialState('j1');
      const steps = known.reduce((state, entry) => {
        const frozen = structuredClone(state);
        const next = evolve(state, entry);
        expect(state).toEqual(frozen);
        return next;
      }, start);
      expect(steps).toEqual(evolved(start, known));
      expect(start).toEqual(initialState('j1'));
      expect(known).toEqual(before);
    }),
    { seed, numRuns: 100 },
  );
});
