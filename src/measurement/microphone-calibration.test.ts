import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deviationAt, type MicrophoneCalibration, parseMicrophoneCalibration } from './microphone-calibration.ts';

function parsed(text: string): MicrophoneCalibration {
  const result = parseMicrophoneCalibration(text);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

/** Rows as [frequency, deviation] or [frequency, deviation, phase]. */
function rows(text: string): number[][] {
  const { fHz, deviationDb, phaseDeg } = parsed(text);
  return fHz.map((f, i) => (phaseDeg ? [f, deviationDb[i], phaseDeg[i]] : [f, deviationDb[i]]));
}

function issues(text: string) {
  const result = parseMicrophoneCalibration(text);
  return result.ok ? [] : result.issues;
}

describe('files as people have them', () => {
  const wanted = [
    [20, -1.3],
    [31.5, -0.3],
    [1000, 0],
    [20000, 2.25],
  ];
  it.each([
    ['tabs and points', '20\t-1.3\n31.5\t-0.3\n1000\t0\n20000\t2.25\n'],
    ['blanks and points, set in', '   20   -1.3\n   31.5 -0.3\n 1000  0\n20000  2.25'],
    ['commas and points', '20,-1.3\n31.5,-0.3\n1000,0\n20000,2.25'],
    ['commas with blanks', '20, -1.3\n31.5, -0.3\n1000, 0\n20000, 2.25'],
    ['semicolons and points', '20;-1.3\n31.5;-0.3\n1000;0\n20000;2.25;'],
    ['tabs and decimal commas', '20\t-1,3\n31,5\t-0,3\n1000\t0\n20000\t2,25'],
    ['semicolons and decimal commas', '20,0;-1,3\n31,5;-0,3\n1000,0;0,0\n20000;2,25'],
    ['blanks and decimal commas of three places', '20,000 -1,300\n31,500 -0,300\n1000,000 0,000\n20000,000 2,250'],
    ['semicolons with blanks and decimal commas', '20 ; -1,3\n31,5 ; -0,3\n1000 ; 0\n20000 ; 2,25'],
    ['nothing but commas', '20,0,-1,3\n31,5,-0,3\n1000,0,0,0\n20000,0,2,25'],
    ['nothing but commas, whole numbers bare', '20,-1,3\n31,5,-0,3\n1000,0\n20000,2,25'],
    ['thousands set apart by commas', '20.0\t-1.3\n31.5\t-0.3\n1,000.0\t0.0\n20,000.0\t2.25'],
    ['thousands set apart by points', '20,0;-1,3\n31,5;-0,3\n1.000,0;0,0\n20.000,0;2,25'],
    ['powers of ten', '2.0E+01 -1.3E+00\n3.15e1 -3e-1\n1E3 0\n2.0e4 +2.25'],
    ['powers of ten with commas', '2,0E+01;-1,3E+00\n3,15E+01;-3,0E-01\n1,0E+03;0\n2,0E+04;2,25'],
    ['quotes', '"20","-1.3"\n"31.5","-0.3"\n"1000","0"\n"20000","2.25"'],
    ['units', '20 Hz\t-1.3 dB\n31.5Hz\t-0.3dB\n1 kHz\t0 dB\n20kHz\t2.25 dB'],
    ['a true minus sign', '20\t\u22121.3\n31.5\t\u22120.3\n1000\t0\n20000\t2.25'],
    ['CRLF and a byte order mark', '\ufeff20\t-1.3\r\n31.5\t-0.3\r\n1000\t0\r\n20000\t2.25\r\n'],
    ['CR alone', '20\t-1.3\r31.5\t-0.3\r1000\t0\r20000\t2.25'],
    [
      'comments of every kind',
      '# one\n* two\n; three\n// four\n"five 5"\nFreq dB\n%six\n\n20 -1.3\n31.5 -0.3 # seven\n* eight\n1000 0 // nine\n20000 2.25 ten\n',
    ],
    ['a heading that begins with a number', '2024-03-01 12:30\n90 degrees\n20 -1.3\n31.5 -0.3\n1000 0\n20000 2.25'],
    ['a first row at 0 Hz', '0 -80.0e-1\n20 -1.3\n31.5 -0.3\n1000 0\n20000 2.25'],
    ['a heading in kHz', 'freq [kHz]; dB\n0,02;-1,3\n0,0315;-0,3\n1;0\n20;2,25'],
    ['a frequency that comes again', '20 -1.3\n31.5 -0.3\n31.5 -0.35\n1000 0\n20000 2.25'],
    ['numbers that begin with the point', '20 -1.3\n31.5 -.3\n1000 .0\n20000 2.25'],
    ['numbers that begin with the comma', '20;-1,3\n31,5;-,3\n1000;,0\n20000;2,25'],
  ])('%s', (_, text) => {
    expect(rows(text).map(([f, db]) => [Number(f.toFixed(6)), db])).toEqual(wanted);
  });

  it.each([
    ['tabs', '20\t-1.3\t12.5\n1000\t0\t-3\n'],
    ['semicolons, decimal commas', '20;-1,3;12,5\n1000;0;-3\n'],
    ['nothing but commas', '20,0,-1,3,12,5\n1000,0,0,0,-3,0\n'],
    ['a fourth column', '20 -1.3 12.5 0.1\n1000 0 -3 0.1\n'],
  ])('a third column is the phase: %s', (_, text) => {
    expect(rows(text)).toEqual([
      [20, -1.3, 12.5],
      [1000, 0, -3],
    ]);
  });

  it('three whole numbers between commas are three columns if a third one has a sign', () => {
    expect(rows('20,-1,3\n25,-1,-2\n1000,0,0')).toEqual([
      [20, -1, 3],
      [25, -1, -2],
      [1000, 0, 0],
    ]);
  });

  it('commas that allow two readings are read so that the curve is smooth, and that is said', () => {
    const { fHz, deviationDb, notes } = parsed('20,0,0,2\n1000,5,0,3\n2000,0,4\n4000,5,0');
    expect(fHz).toEqual([20, 1000.5, 2000, 4000.5]);
    expect(deviationDb).toEqual([0.2, 0.3, 0.4, 0]);
    expect(notes.join()).toContain('2 rows have commas that allow two readings');
  });

  it('a phase in some rows only is left out, and that is said', () => {
    const calibration = parsed('20 1 2\n30 1\n40 1 3\n2000 0');
    expect(calibration.phaseDeg).toBeUndefined();
    expect(calibration.notes).toEqual(['Only some rows have a phase, so it is not used.']);
  });

  it('the words of the file are kept', () => {
    const { notes } = parsed('* Microphone 4711, 90 degrees\n"Sens = -38 dB"\n20 1\n2000 1');
    expect(notes).toEqual(['Microphone 4711, 90 degrees', 'Sens = -38 dB']);
  });

  it('a heading in kHz is not believed over frequencies that can only be in Hz', () => {
    expect(parsed('freq [kHz]; dB\n20;1\n20000;0').fHz).toEqual([20, 20000]);
  });

  it('a file that ends low is doubted', () => {
    expect(parsed('0.02 1\n20 0').notes.join()).toContain('ends at 20 Hz');
  });
});

describe('a stated sensitivity', () => {
  const of = (line: string) => parsed(`${line}\n20 1\n2000 0`).sensitivity;
  it.each([
    ['"Sens Factor =-1.234dB, SERNO: 7001"', -1.234, 'dB'],
    ['* Sensitivity at 1 kHz: 12.5 mV/Pa', 12.5, 'mV/Pa'],
    ['# Sensitivity 12,5 mV / Pa', 12.5, 'mV/Pa'],
    ['; sensitivity (94 Hz) -36,4 dB re 1V/Pa', -36.4, 'dB re 1 V/Pa'],
    ['Sensitivity: -38 dBV', -38, 'dB re 1 V/Pa'],
    ['sens. \u221226.0 dBFS @ 94', -26, 'dBFS'],
    ['"Sens =-.5dB"', -0.5, 'dB'],
  ])('is returned: %s', (line, value, unit) => {
    expect(of(line)).toEqual({ value, unit });
  });

  it.each(['* Sensitivity high', '* Sensitivity 12', '* Gain 12 dB', '* Sensitivity 3 dBase'])(
    'is not made up: %s',
    (line) => {
      expect(of(line)).toBeUndefined();
    },
  );
});

describe('files that are refused', () => {
  it.each([
    ['nothing', '', 'not-a-calibration', 'line 1'],
    ['a JSON object', '\ufeff {"schema":"kickpanel.track/1"}', 'not-a-calibration', 'line 1'],
    ['a JSON list', '[{"f":20}]', 'not-a-calibration', 'line 1'],
    ['a JSON list of lists', '[[20,1],[30,2]]', 'not-a-calibration', 'line 1'],
    ['a web page', '<!doctype html>', 'not-a-calibration', 'line 1'],
    ['a sound file', 'RIFF\0\0\0\0WAVE', 'not-a-calibration', 'line 1'],
    ['a PDF', '%PDF-1.7\n1 0 obj', 'not-a-calibration', 'line 1'],
    ['no text', 'abc\0\0\0', 'not-a-calibration', 'line 1'],
    ['four million characters', '20 1\n'.repeat(900_000), 'too-large', 'file size'],
    ['words', 'hello\nworld', 'too-few-rows', 'whole file'],
    ['one row', '20 1', 'too-few-rows', 'whole file'],
    ['one row, twice', '20 1\n20 1', 'too-few-rows', 'whole file'],
    ['falling frequencies', '# x\n20000 1\n1000 0\n20 1', 'frequencies-not-ascending', 'line 3'],
    ['one frequency out of order', '20 1\n40 1\n30 1\n50 1', 'frequencies-not-ascending', 'line 3'],
    ['a deviation of 20.1 dB', '20 1\n\n40 20.1\n50 1', 'deviation-too-large', 'line 3'],
    ['a deviation of -20.1 dB', '20 -20.1\n40 0', 'deviation-too-large', 'line 1'],
    ['a frequency twice, 3 dB apart', '20 1\n40 1\n40 4', 'frequency-twice', 'line 3'],
    ['a negative frequency', '-20 1\n40 1', 'frequency-impossible', 'line 1'],
    ['a frequency beyond all sound', '20 1\n4e7 1', 'frequency-impossible', 'line 2'],
    ['a row without a deviation', '20 1\n40\n50 1', 'row-unreadable', 'line 2'],
    ['a letter among the digits', '20 1\n4O.5 1\n50 1', 'row-unreadable', 'line 2'],
    ['a deviation that is no number', '20 1\n40 NaN\n50 1', 'row-unreadable', 'line 2'],
    ['a number too large to be one', '20 1\n40 1e999\n50 1', 'row-unreadable', 'line 2'],
    ['five numbers between commas', '20,0,1,0\n40,5,0,2,1\n50,0,1,0', 'row-unreadable', 'line 2'],
  ])('%s', (_, text, code, where) => {
    const found = issues(text);
    expect(found.map((issue) => [issue.code, issue.where])).toEqual([[code, where]]);
    expect(found[0].message).toBeTruthy();
    expect(found[0].mend).toBeTruthy();
  });

  it('20 dB either way is allowed', () => {
    expect(rows('20 -20\n2000 20')).toEqual([
      [20, -20],
      [2000, 20],
    ]);
  });

  it('everything wrong is reported at once, each kind with its first line and its number of lines', () => {
    const found = issues('20 30\n10 1\n15 40\n12 x');
    expect(found.map((issue) => issue.code)).toEqual([
      'row-unreadable',
      'frequencies-not-ascending',
      'deviation-too-large',
    ]);
    expect(found[2].message).toContain('30 dB');
    expect(found[2].message).toContain('and 1 more');
  });

  it('endless lines cost no time', () => {
    const blanks = ' '.repeat(1_000_000);
    const startedMs = process.cpuUsage().user / 1000;
    const found = issues(`20${blanks}1\n"${blanks}x\n30${','.repeat(1_000_000)}`);
    expect(found.map((issue) => issue.code)).toEqual(['too-few-rows']);
    expect(process.cpuUsage().user / 1000 - startedMs).toBeLessThan(2000);
  });
});

describe('any table', () => {
  const table = fc
    .array(
      fc.tuple(
        fc.integer({ min: 1, max: 500 }),
        fc.integer({ min: -1999, max: 1999 }),
        fc.integer({ min: -1800, max: 1800 }),
      ),
      { minLength: 2, maxLength: 40 },
    )
    .map((steps) => {
      let tenths = 100;
      return steps.map(([step, deviation, phase]) => {
        tenths += step;
        return [tenths / 10, deviation / 100, phase / 10];
      });
    });
  const separator = fc.constantFrom('\t', ' ', ';', '   ', ' ; ');
  const ending = fc.constantFrom('\n', '\r\n', '\r');

  it('comes back from points or commas, with or without phase, at full length', () => {
    fc.assert(
      fc.property(
        table,
        separator,
        ending,
        fc.boolean(),
        fc.boolean(),
        fc.boolean(),
        (lines, between, end, comma, phase, trimmed) => {
          const number = (value: number, places: number) => {
            const text = trimmed ? String(value) : value.toFixed(places);
            return comma ? text.replace('.', ',') : text;
          };
          const text = lines
            .map(([f, db, deg]) => [number(f, 1), number(db, 2), ...(phase ? [number(deg, 1)] : [])].join(between))
            .join(end);
          expect(rows(text)).toEqual(lines.map((line) => (phase ? line : line.slice(0, 2))));
        },
      ),
      { seed: 81, numRuns: 400 },
    );
  });

  it('comes back from commas alone when every number has its decimals', () => {
    fc.assert(
      fc.property(table, fc.boolean(), (lines, phase) => {
        const text = lines
          .map(([f, db, deg]) =>
            [f.toFixed(1), db.toFixed(2), ...(phase ? [deg.toFixed(1)] : [])].join(',').replaceAll('.', ','),
          )
          .join('\n');
        expect(rows(text)).toEqual(lines.map((line) => (phase ? line : line.slice(0, 2))));
      }),
      { seed: 82, numRuns: 200 },
    );
  });

  it('of rubbish is refused or holds what it must', () => {
    const piece = fc.constantFrom(
      '20',
      '1,5',
      '-',
      '.',
      ',',
      ';',
      '\t',
      ' ',
      '\n',
      'e5',
      '0',
      '#',
      '"',
      'kHz',
      'dB',
      '1e308',
      '9',
      '\ufeff',
      '+',
      '{',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 60 }), (pieces) => {
        const result = parseMicrophoneCalibration(pieces.join(''));
        if (!result.ok) return result.issues.every((issue) => issue.code && issue.message && issue.where && issue.mend);
        const { fHz, deviationDb } = result.value;
        return (
          fHz.length >= 2 &&
          fHz.every((f, i) => f > 0 && Number.isFinite(f) && (i === 0 || f > fHz[i - 1])) &&
          deviationDb.every((db) => Math.abs(db) <= 20) &&
          Number.isFinite(deviationAt(result.value, 1000).deviationDb)
        );
      }),
      { seed: 83, numRuns: 3000 },
    );
  });
});

describe('the deviation at a frequency', () => {
  const calibration = { fHz: [100, 1000, 4000], deviationDb: [-2, 0, 3] };

  it('is linear over the logarithm of the frequency', () => {
    // Half way in octaves: sqrt(100 x 1000) and sqrt(1000 x 4000).
    expect(deviationAt(calibration, Math.sqrt(1e5)).deviationDb).toBeCloseTo(-1, 12);
    expect(deviationAt(calibration, 2000)).toEqual({ deviationDb: expect.closeTo(1.5, 12), outside: false });
  });

  it('is that of the rows at the rows', () => {
    expect([100, 1000, 4000].map((f) => deviationAt(calibration, f))).toEqual([
      { deviationDb: -2, outside: false },
      { deviationDb: 0, outside: false },
      { deviationDb: 3, outside: false },
    ]);
  });

  it('is that of the nearest row outside, and says so', () => {
    expect(deviationAt(calibration, 99.9)).toEqual({ deviationDb: -2, outside: true });
    expect(deviationAt(calibration, 4001)).toEqual({ deviationDb: 3, outside: true });
  });

  it('does not exist at 0 Hz and where there is no frequency', () => {
    expect(() => deviationAt(calibration, 0)).toThrow(RangeError);
    expect(() => deviationAt(calibration, Number.NaN)).toThrow(RangeError);
  });
});
