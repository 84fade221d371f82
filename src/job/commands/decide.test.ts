import { describe, expect, test } from 'vitest';
import { at, Bench, fileNamed, openJob, sha256, takeOf } from '../../../test/job/given.ts';
import type { Command } from './commands.ts';
import { commandSchema } from './commands.ts';

const covers = (...states: [string, 'off' | 'resting' | 'fastened'][]): Command => ({
  command: 'changeCovers',
  covers: states.map(([cover, state]) => ({ cover, state })),
});

function refusal(bench: Bench, wish: Command) {
  const decision = bench.decided(wish);
  return decision.ok ? 'not refused' : decision.issues[0].code;
}

test('a wish becomes an entry with its author, time and place in the order of its device', () => {
  const bench = new Bench().does(openJob, { command: 'addNote', text: 'hello' });
  expect(bench.entries[1]).toEqual({
    id: 'e2',
    job: 'j1',
    device: 'bench',
    sequence: 2,
    when: at(2),
    who: 'Ann',
    kind: 'note-added',
    version: 1,
    data: { text: 'hello' },
  });
});

describe('a job', () => {
  test('is opened once, and before anything else', () => {
    expect(refusal(new Bench(), { command: 'addNote', text: 'x' })).toBe('job-unknown');
    expect(refusal(new Bench().does(openJob), openJob)).toBe('job-exists');
  });

  test('can be renamed', () => {
    const bench = new Bench().does(openJob, { command: 'renameJob', name: 'Six speakers', number: '0413' });
    expect(bench.state).toMatchObject({ name: 'Six speakers', number: '0413' });
  });
});

describe('personal data', () => {
  const bench = new Bench().does(openJob, {
    command: 'describeVehicle',
    bodyType: 'van',
    name: 'Tarrow Pipit van, 2019',
    owner: 'Wenbury Library',
    plate: 'WB 12 XYZ',
  });

  test('stand in records of their own; the entry has only their salted hash', () => {
    const text = JSON.stringify(bench.entries);
    expect(text).not.toContain('Wenbury');
    expect(text).not.toContain('WB 12');
    const [owner] = bench.records;
    expect(owner).toMatchObject({ kind: 'owner', value: 'Wenbury Library' });
    expect(bench.state.personal.owner).toEqual({
      record: owner.id,
      hash: sha256(`${owner.salt}\nWenbury Library`),
    });
    expect(bench.state.personal.phone).toBeUndefined();
  });

  test('the same value has another hash each time', () => {
    const twice = new Bench().does(
      openJob,
      { command: 'describeVehicle', plate: 'A' },
      { command: 'describeVehicle', plate: 'A' },
    );
    const [first, second] = twice.records;
    const hashes = twice.entries.slice(1).map(({ data }) => JSON.stringify(data));
    expect(first.salt).not.toBe(second.salt);
    expect(hashes[0]).not.toBe(hashes[1]);
  });

  test('are erased with all that was ever said, corrected or taken back', () => {
    const again = new Bench().does(
      openJob,
      { command: 'describeVehicle', plate: 'A', owner: 'B' },
      { command: 'describeVehicle', plate: 'C' },
      { command: 'undo', entry: 'e3' },
    );
    const decision = again.decided({ command: 'erasePersonal', why: 'asked by telephone' });
    expect(decision.ok && [...decision.value.erase].sort()).toEqual(again.records.map(({ id }) => id).sort());
    again.does({ command: 'erasePersonal' });
    expect(again.state.erasedRecords).toHaveLength(3);
    expect(refusal(again, { command: 'erasePersonal' })).toBe('nothing-to-erase');
    expect(refusal(again, { command: 'erasePersonal', records: [again.records[0].id] })).toBe('record-unknown');
  });
});

describe('covers', () => {
  test('only those that change are entered', () => {
    const bench = new Bench().does(openJob, covers(['A', 'off'], ['B', 'off']), covers(['A', 'off'], ['B', 'resting']));
    expect(bench.entries[2].data).toEqual({ covers: [{ cover: 'B', state: 'resting' }] });
    expect(refusal(bench, covers(['A', 'off']))).toBe('nothing-changes');
  });

  test('each is named once', () => {
    expect(commandSchema.safeParse(covers(['A', 'off'], ['A', 'fastened'])).success).toBe(false);
  });
});

describe('a take', () => {
  test('remembers the covers as they were, whatever happens to them later', () => {
    const bench = new Bench().does(
      openJob,
      covers(['A', 'off'], ['B', 'fastened']),
      takeOf('left'),
      covers(['A', 'fastened']),
    );
    expect(bench.state.takes[0].covers).toEqual([
      { cover: 'A', state: 'off' },
      { cover: 'B', state: 'fastened' },
    ]);
  });

  test('says what its levels are relative to, from the microphone if that is calibrated', () => {
    const calibrated: Command = {
      command: 'calibrateMicrophone',
      microphone: 'm1',
      name: 'M-14',
      fullScaleSplDb: 121.5,
    };
    const bench = new Bench().does(openJob, takeOf('before'), calibrated, takeOf('after', { microphone: 'm1' }));
    expect(bench.state.takes.map(({ level }) => level)).toEqual([
      { reference: 'full-scale' },
      { reference: 'spl', fullScaleSplDb: 121.5 },
    ]);
  });

  test('is called after its entry unless it has a name of its own, and no two have the same', () => {
    const bench = new Bench().does(openJob, takeOf('a'), takeOf('b', { take: 'T2' }));
    expect(bench.state.takes.map(({ take }) => take)).toEqual(['e2', 'T2']);
    expect(refusal(bench, takeOf('c', { take: 'T2' }))).toBe('take-exists');
  });

  test('can be noted, renamed, set aside and compared while it is there', () => {
    const bench = new Bench().does(openJob, takeOf('a', { take: 'T1' }), takeOf('b', { take: 'T2' }));
    bench.does({ command: 'noteTake', take: 'T1', note: 'a lorry passed', kept: false, name: 'a, noisy' });
    bench.does({ command: 'compareTakes', takes: ['T1', 'T2'], note: 'no difference' });
    expect(bench.state.takes[0]).toMatchObject({
      name: 'a, noisy',
      kept: false,
      notes: [{ text: 'a lorry passed', who: 'Ann' }],
    });
    expect(bench.state.comparisons).toMatchObject([{ takes: ['T1', 'T2'] }]);
    bench.does({ command: 'undo', entry: 'e2' });
    expect(refusal(bench, { command: 'noteTake', take: 'T1', kept: true })).toBe('take-unknown');
    expect(refusal(bench, { command: 'compareTakes', takes: ['T2', 'T1'] })).toBe('take-unknown');
  });
});

test('a microphone keeps what the newest calibration does not mention', () => {
  const correction = { fHz: [20, 20_000], deviationDb: [-1, 2] };
  const bench = new Bench().does(
    openJob,
    { command: 'calibrateMicrophone', microphone: 'm1', name: 'M-14', correction },
    { command: 'calibrateMicrophone', microphone: 'm1', name: 'M-14', fullScaleSplDb: 120 },
  );
  expect(bench.state.microphones).toMatchObject([{ correction, fullScaleSplDb: 120, entry: 'e3' }]);
});

test('a track made twice is listed once', () => {
  const track: Command = { command: 'keepTrack', track: fileNamed('t'), kind: 'sweep', durationS: 7 };
  expect(new Bench().does(openJob, track, { ...track, name: 'again' }).state.tracks).toMatchObject([{ name: 'again' }]);
});

describe('undo is refused', () => {
  test('of nothing, of the opening, of what was erased, and twice', () => {
    const bench = new Bench().does(openJob, { command: 'describeVehicle', plate: 'A' }, { command: 'erasePersonal' });
    bench.does({ command: 'addNote', text: 'x' }, { command: 'undo', entry: 'e4' });
    expect(refusal(bench, { command: 'undo', entry: 'nothing' })).toBe('entry-unknown');
    expect(refusal(bench, { command: 'undo', entry: 'e1' })).toBe('not-undoable');
    expect(refusal(bench, { command: 'undo', entry: 'e3' })).toBe('not-undoable');
    expect(refusal(bench, { command: 'undo', entry: 'e4' })).toBe('undone-already');
  });
});

test('every refusal says what is wrong and what to do', () => {
  const decision = new Bench().decided({ command: 'addNote', text: 'x' });
  expect(decision).toEqual({
    ok: false,
    issues: [{ code: 'job-unknown', message: 'There is no such job.', mend: 'Create it first.', where: 'j1' }],
  });
});
