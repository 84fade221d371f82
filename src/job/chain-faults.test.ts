import { describe, expect, test } from 'vitest';
import { Bench, openJob, sha256, takeOf } from '../../test/job/given.ts';
import { chained, emptyHead, entryHash } from './chain.ts';
import { chainFaults } from './chain-faults.ts';
import type { ChainedEntry } from './entries.ts';

const bench = new Bench().does(
  openJob,
  { command: 'describeVehicle', bodyType: 'van', plate: 'WB 12 XYZ' },
  { command: 'changeCovers', covers: [{ cover: 'A', state: 'off' }] },
  takeOf('left door'),
  { command: 'addNote', text: 'the grille rattles' },
  { command: 'undo', entry: 'e5' },
);
const head = { entries: 6, hash: bench.chain[5].hash };

/** The journal as it stands after somebody was at it. */
function altered(change: (chain: ChainedEntry[]) => unknown): unknown[] {
  const chain = structuredClone(bench.chain);
  const other = change(chain);
  return Array.isArray(other) ? other : chain;
}

const faultsOf = (chain: unknown[]) => chainFaults(chain, 'j1', sha256, head);

test('each entry carries the hash of the one before, and the first carries none', () => {
  const { chain } = bench;
  expect(chain[0].previousHash).toBe('0'.repeat(64));
  for (let n = 1; n < chain.length; n++) expect(chain[n].previousHash).toBe(chain[n - 1].hash);
});

test('the hash is the SHA-256 of the canonical spelling, as the archive tells its readers', () => {
  const [first] = bench.chain;
  const { hash, ...rest } = first;
  const sorted = Object.fromEntries(Object.entries(rest).sort(([a], [b]) => (a < b ? -1 : 1)));
  const data = { name: 'Four door speakers', purpose: 'car' };
  expect(sha256(JSON.stringify({ ...sorted, data }))).toBe(hash);
});

test('a whole journal has no fault, nor has an empty one', () => {
  expect(faultsOf(bench.chain)).toEqual([]);
  expect(chainFaults([], 'j1', sha256, emptyHead)).toEqual([]);
});

describe('the first altered entry is named', () => {
  test.each([0, 1, 2, 3, 4, 5])('entry %i, with one word changed', (index) => {
    const faults = faultsOf(
      altered((chain) => {
        chain[index].who = 'Bob';
      }),
    );
    expect(faults[0]).toMatchObject({ code: 'entry-altered', position: index + 1, entry: `e${index + 1}` });
  });

  test.each([0, 1, 2, 3, 4])('entry %i, changed and given a new hash', (index) => {
    const faults = faultsOf(
      altered((chain) => {
        chain[index].who = 'Bob';
        chain[index].hash = entryHash(chain[index], chain[index].previousHash, sha256);
      }),
    );
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ code: 'entry-altered', position: index + 1, entry: `e${index + 1}` });
  });

  test('the last entry, changed and given a new hash, is not what the journal ended with', () => {
    const faults = faultsOf(
      altered((chain) => {
        chain[5].who = 'Bob';
        chain[5].hash = entryHash(chain[5], chain[5].previousHash, sha256);
      }),
    );
    expect(faults).toMatchObject([{ code: 'end-differs', position: 6 }]);
  });

  test('the earlier of two', () => {
    const faults = faultsOf(
      altered((chain) => {
        chain[4].when = chain[0].when;
        chain[1].data = {};
      }),
    );
    expect(faults.map(({ position }) => position)).toEqual([2, 5]);
  });

  test('a field that this version does not know counts too', () => {
    const faults = faultsOf(
      altered((chain) => {
        chain[2].approvedBy = 'Bob';
      }),
    );
    expect(faults[0]).toMatchObject({ code: 'entry-altered', position: 3 });
  });

  test('white space around a name is content', () => {
    const faults = faultsOf(
      altered((chain) => {
        chain[2].who = 'Ann ';
      }),
    );
    expect(faults[0]).toMatchObject({ code: 'entry-altered', position: 3 });
  });
});

test('an entry taken away is missed where it was', () => {
  expect(faultsOf(altered((chain) => chain.filter((_, n) => n !== 2)))[0]).toMatchObject({
    code: 'entry-missing',
    position: 3,
    entry: 'e4',
  });
  expect(faultsOf(altered((chain) => chain.slice(1)))[0]).toMatchObject({ code: 'entry-missing', position: 1 });
});

test('a journal cut off at its end is not what it was', () => {
  const faults = faultsOf(altered((chain) => chain.slice(0, 4)));
  expect(faults).toMatchObject([{ code: 'end-differs', message: 'The journal ends after 4 entries; it had 6.' }]);
});

test('two entries that changed places are noticed', () => {
  expect(faultsOf(altered(([a, b, c, ...rest]) => [a, c, b, ...rest])).length).toBeGreaterThan(0);
});

test('what is no entry is said to be none, and the rest is still looked at', () => {
  const faults = faultsOf(
    altered((chain) => [chain[0], 'rubbish', { id: 'e3' }, ...chain.slice(3, 5), { ...chain[5], who: 'Bob' }]),
  );
  expect(faults.map(({ code, position }) => [code, position])).toEqual([
    ['entry-unreadable', 2],
    ['entry-unreadable', 3],
    ['entry-altered', 6],
  ]);
});

test('an entry of another job, and one that comes twice, do not belong', () => {
  const stranger = new Bench('j2').does(openJob).entries[0];
  const [first] = bench.entries;
  const chain = chained([first, stranger, first], emptyHead, sha256);
  const codes = chainFaults(chain, 'j1', sha256).map(({ code }) => code);
  expect(codes).toEqual(['entry-twice', 'entry-foreign', 'entry-twice']);
});
