import { describe, expect, test } from 'vitest';
import { Bench, entry, fileNamed, openJob, takeOf } from '../../../test/job/given.ts';
import { journalOf } from '../journal.ts';
import type { CheckStage, Wished } from './check-forms.ts';
import { type CheckReport, checkInOf } from './check-in.ts';
import { checkNamed, checks, nextMark } from './checks.ts';

const photoOf = (name: string) =>
  ({ command: 'attachPhoto', photo: fileNamed(name), bytes: 1000, type: 'jpeg', name }) as const;
const check = (at: CheckStage, id: string, found: Wished) =>
  ({ command: 'recordCheck', at, check: id, found }) as const;
const read = (value: number, unit: 'V' | 'mV' | 'A' | 'mA', more: object = {}): Wished => ({
  how: 'measured',
  value,
  unit,
  ...more,
});
const found = (word: 'ok' | 'fault' | 'not-tried' | 'not-fitted', words?: string): Wished => ({
  how: 'seen',
  found: word,
  ...(words === undefined ? {} : { words }),
});
const begun = () => new Bench().does(openJob, photoOf('sill'), photoOf('sill again'), takeOf('chime'));
const reportOf = (bench: Bench, id: string) =>
  checkInOf(bench.state).checks.find((report) => report.check === id) as CheckReport;
const refusal = (bench: Bench, at: CheckStage, id: string, wished: Wished) => {
  const decision = bench.decided(check(at, id, wished));
  return decision.ok ? 'not refused' : decision.issues[0].code;
};

describe('a check of the car as it came', () => {
  test('is open until it is tried; what was not tried stays open', () => {
    const bench = begun();
    const { arrive } = checkInOf(bench.state).counts;
    expect(arrive).toEqual({ done: 0, open: checks.length, faults: 0 });
    bench.does(check('arrive', 'radio', found('ok')), check('arrive', 'locks', found('not-tried')));
    expect(checkInOf(bench.state).counts.arrive).toEqual({ done: 1, open: checks.length - 1, faults: 0 });
    expect(reportOf(bench, 'radio').arrive).toMatchObject({ verdict: 'fine', who: 'Ann', says: 'fine' });
  });

  test.each([
    ['resting-volts', read(12.58, 'V'), 'fine', '12.58 V'],
    ['resting-volts', read(12.4, 'V'), 'fine', '12.4 V'],
    ['resting-volts', read(12_390, 'mV'), 'fault', '12.39 V'],
    ['resting-volts', read(12.81, 'V'), 'fault', '12.81 V'],
    ['resting-volts', read(25.2, 'V'), 'fine', '25.2 V'],
    ['resting-volts', read(24.7, 'V'), 'fault', '24.7 V'],
    ['charging-volts', read(13.5, 'V'), 'fine', '13.5 V'],
    ['charging-volts', read(14.9, 'V'), 'fault', '14.9 V'],
    ['charging-volts', read(28, 'V'), 'fine', '28 V'],
    ['standby-draw', read(0.05, 'A'), 'fine', '50 mA'],
    ['standby-draw', read(24, 'mA', { afterMin: 5 }), 'fine', '24 mA after 5 min'],
    ['standby-draw', read(0.33, 'A', { afterMin: 10 }), 'cannot-tell', '330 mA after 10 min'],
    ['standby-draw', read(0.33, 'A'), 'cannot-tell', '330 mA'],
    ['standby-draw', read(0.33, 'A', { afterMin: 30 }), 'fault', '330 mA after 30 min'],
  ] as const)('of %s is judged by what is expected: %j', (id, wished, verdict, says) => {
    const bench = begun().does(check('arrive', id, wished));
    expect(reportOf(bench, id).arrive).toMatchObject({ verdict, says });
  });

  test('of a 24 V vehicle is judged by its plan, also where the battery is nearly flat', () => {
    const bench = begun().does(
      { command: 'setPlanPart', part: 'vehicle', id: 'vehicle', value: { systemVoltageV: 24 } },
      check('arrive', 'resting-volts', read(13, 'V')),
    );
    const report = reportOf(bench, 'resting-volts');
    expect(report.arrive?.verdict).toBe('fault');
    expect(report.expected).toMatchObject({ low: 24.8, high: 25.6, source: { kind: 'practice' } });
  });

  test('keeps all readings of a draw, so that its curve can be drawn', () => {
    const bench = begun().does(
      check('arrive', 'standby-draw', read(3.1, 'A', { afterMin: 0 })),
      check('arrive', 'standby-draw', read(330, 'mA', { afterMin: 10 })),
      check('arrive', 'standby-draw', read(24, 'mA', { afterMin: 25 })),
    );
    const { readings, arrive } = reportOf(bench, 'standby-draw');
    expect(readings.arrive.map(({ value, afterMin }) => [afterMin, value])).toEqual([
      [0, 3.1],
      [10, 0.33],
      [25, 0.024],
    ]);
    expect(arrive?.verdict).toBe('fine');
  });

  test('with a photo or a take stands as long as it is there', () => {
    const bench = begun().does(
      check('arrive', 'nose', { how: 'photo', photo: fileNamed('sill') }),
      check('arrive', 'door-chime', { how: 'take', take: 'e4' }),
    );
    expect(reportOf(bench, 'nose').arrive).toMatchObject({ verdict: 'kept', says: 'photo sill' });
    expect(reportOf(bench, 'door-chime').arrive).toMatchObject({ verdict: 'kept', says: 'take chime' });
    bench.does({ command: 'undo', entry: 'e2' }, { command: 'noteTake', take: 'e4', kept: false });
    expect(reportOf(bench, 'nose').arrive).toMatchObject({ verdict: 'cannot-tell' });
    expect(reportOf(bench, 'door-chime').arrive).toMatchObject({ verdict: 'cannot-tell' });
  });

  test('is undone like anything else, and then the one before counts', () => {
    const bench = begun().does(
      check('arrive', 'radio', found('ok')),
      check('arrive', 'radio', found('fault', 'no FM')),
    );
    expect(bench.state.undoable?.says).toBe('looked over radio reception at Arrive');
    bench.does({ command: 'undo', entry: bench.entries.at(-1)?.id ?? '' });
    expect(reportOf(bench, 'radio').arrive?.verdict).toBe('fine');
  });

  test('is refused where it is not asked so, or names what is not there', () => {
    const bench = begun();
    expect(refusal(bench, 'arrive', 'radio', read(1, 'V'))).toBe('answer-unfit');
    expect(refusal(bench, 'arrive', 'resting-volts', found('ok'))).toBe('answer-unfit');
    expect(refusal(bench, 'arrive', 'complaint', found('fault'))).toBe('answer-unfit');
    expect(refusal(bench, 'refit', 'complaint', { how: 'said', words: 'x' })).toBe('answer-unfit');
    expect(refusal(bench, 'arrive', 'resting-volts', read(1, 'A'))).toBe('unit-unfit');
    expect(refusal(bench, 'arrive', 'nose', { how: 'photo', photo: fileNamed('never') })).toBe('photo-unknown');
    expect(refusal(bench, 'arrive', 'door-chime', { how: 'take', take: 'never' })).toBe('take-unknown');
    expect(refusal(bench, 'arrive', 'radios', found('ok'))).toBe('check-unknown');
    expect(refusal(bench, 'arrive', 'mark-0', found('ok'))).toBe('check-unknown');
    expect(refusal(bench, 'arrive', 'mark-100', found('ok'))).toBe('check-unknown');
  });
});

describe('the complaint', () => {
  test('stands in a record that can be erased, never in the journal', () => {
    const words = 'At the stops nobody at the back can hear the story.';
    const bench = begun().does(check('arrive', 'complaint', { how: 'said', words }));
    expect(JSON.stringify(bench.entries)).not.toContain('the story');
    expect(bench.records).toMatchObject([{ kind: 'complaint', value: words }]);
    const record = bench.records[0].id;
    expect(bench.state.personal.complaint?.record).toBe(record);
    expect(reportOf(bench, 'complaint').arrive?.says).toBe('in the words of the owner');
    bench.does({ command: 'erasePersonal' });
    expect(bench.state.erasedRecords).toEqual([record]);
  });

  test('is gone at Refit, or is not', () => {
    const bench = begun().does(check('arrive', 'complaint', { how: 'said', words: 'It buzzes.' }));
    bench.does(check('refit', 'complaint', found('fault', 'still at idle')));
    expect(reportOf(bench, 'complaint').difference).toEqual({
      change: 'same',
      says: 'The complaint is still there (a fault: still at idle).',
    });
    bench.does(check('refit', 'complaint', found('ok')));
    expect(reportOf(bench, 'complaint').difference.change).toBe('better');
  });
});

describe('the difference at Refit', () => {
  const photo: Wished = { how: 'photo', photo: fileNamed('sill') };
  const again: Wished = { how: 'photo', photo: fileNamed('sill again') };
  const take: Wished = { how: 'take', take: 'e4' };
  test.each([
    ['radio', found('ok'), found('fault'), 'worse'],
    ['radio', found('fault'), found('ok'), 'better'],
    ['radio', found('ok'), found('ok'), 'same'],
    ['radio', found('fault'), found('fault'), 'same'],
    ['radio', found('ok'), null, 'not-tried'],
    ['radio', found('ok'), found('not-tried'), 'not-tried'],
    ['radio', null, found('ok'), 'cannot-tell'],
    ['radio', found('not-tried'), found('fault'), 'cannot-tell'],
    ['radio', found('not-fitted'), found('not-fitted'), 'same'],
    ['radio', found('ok'), found('not-fitted'), 'cannot-tell'],
    ['resting-volts', read(12.58, 'V'), read(12.61, 'V'), 'same'],
    ['resting-volts', read(12.5, 'V'), read(12.6, 'V'), 'same'],
    ['resting-volts', read(12.75, 'V'), read(12.5, 'V'), 'worse'],
    ['resting-volts', read(12.45, 'V'), read(12.7, 'V'), 'better'],
    ['resting-volts', read(12.5, 'V'), read(12.3, 'V'), 'worse'],
    ['resting-volts', read(12.1, 'V'), read(12.6, 'V'), 'better'],
    ['resting-volts', read(12.1, 'V'), read(12.3, 'V'), 'better'],
    ['resting-volts', read(12.3, 'V'), read(12.05, 'V'), 'worse'],
    ['resting-volts', read(12.3, 'V'), read(12.25, 'V'), 'same'],
    ['charging-volts', read(14.12, 'V'), read(14.06, 'V'), 'same'],
    ['charging-volts', read(13.6, 'V'), read(14.7, 'V'), 'same'],
    ['charging-volts', read(14.1, 'V'), read(13.2, 'V'), 'worse'],
    ['standby-draw', read(24, 'mA'), read(0.034, 'A'), 'same'],
    ['standby-draw', read(24, 'mA'), read(45, 'mA'), 'worse'],
    ['standby-draw', read(24, 'mA'), read(400, 'mA', { afterMin: 40 }), 'worse'],
    ['standby-draw', read(24, 'mA'), read(400, 'mA', { afterMin: 5 }), 'cannot-tell'],
    ['nose', photo, found('ok'), 'same'],
    ['nose', photo, found('fault', 'scuffed'), 'worse'],
    ['nose', photo, again, 'cannot-tell'],
    ['door-chime', take, found('ok'), 'same'],
    ['door-chime', take, found('fault', 'not heard'), 'worse'],
    ['door-chime', found('ok'), take, 'cannot-tell'],
    ['baseline', take, take, 'cannot-tell'],
    ['mark-1', photo, found('ok'), 'same'],
    ['mark-1', photo, found('not-fitted'), 'better'],
    ['mark-2', null, again, 'worse'],
  ] as const)('of %s, %j and then %j, is %s', (id, before, now, change) => {
    const bench = begun();
    if (before !== null) bench.does(check('arrive', id, before));
    if (now !== null) bench.does(check('refit', id, now));
    const { difference } = reportOf(bench, id);
    expect(difference.change).toBe(change);
    expect(difference.says).toMatch(/^[A-Z0-9].*\.$/);
  });

  test('of a draw that may still fall is no fault of the car: the sentence says so first', () => {
    const bench = begun().does(check('arrive', 'standby-draw', read(0.33, 'A', { afterMin: 10 })));
    expect(checkInOf(bench.state).says.arrive).toBe(
      `Draw while locked: 330 mA after 10 min, perhaps not asleep yet. ${checks.length - 1} checks still open.`,
    );
  });

  test('is told in a sentence, the worse first', () => {
    const bench = begun().does(
      check('arrive', 'radio', found('ok')),
      check('refit', 'radio', found('fault')),
      check('refit', 'mark-1', again),
    );
    const { says, counts } = checkInOf(bench.state);
    expect(says.refit).toBe(`Worse than it came: radio reception and mark 1. ${checks.length - 1} checks still open.`);
    expect(counts.refit).toEqual({ done: 2, open: checks.length - 1, faults: 1 });
    expect(says.arrive).toBe(`${checks.length - 1} checks still open.`);
  });
});

test('every check says how it is tried, and every range where it comes from', () => {
  for (const { id, says, expected, answers, caution } of checks) {
    expect(checkNamed(id)?.id).toBe(id);
    expect(says).toMatch(/\.$/);
    if (expected !== undefined) expect(expected.source.says).toMatch(/\.$/);
    // A meter on a battery can hurt; what to mind stands where it is asked for.
    if (answers.arrive.includes('measured')) expect(caution).toBeDefined();
  }
  expect(new Set(checks.map(({ id }) => id)).size).toBe(checks.length);
});

test('marks are numbered as they are found', () => {
  expect(nextMark([])).toBe('mark-1');
  expect(nextMark(['mark-2', 'nose', 'mark-9'])).toBe('mark-10');
  expect(nextMark(['mark-99'])).toBeNull();
});

test('a check that a newer version names is kept and shows nothing here', () => {
  const bench = begun();
  const data = { at: 'arrive', check: 'sunroof', found: { how: 'seen', found: 'ok' } };
  const { state } = journalOf('j1', [...bench.entries, entry('new', 'checked', data, { sequence: 99 })]);
  expect(state.checks).toHaveLength(1);
  expect(state.notUnderstood).toBe(0);
  expect(checkInOf(state).counts.arrive.done).toBe(0);
});
