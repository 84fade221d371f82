// A reading made up for tests of what is said about one: a driver from 100 Hz to 2 kHz at -20 dB.
import type { Reading, Response } from '../measurement/reading.ts';

const fHz = Array.from({ length: 97 }, (_, index) => 1000 * 2 ** ((index - 64) / 12));

function levelDb(f: number): number {
  return -20 - 10 * Math.log10(1 + (100 / f) ** 8) - 10 * Math.log10(1 + (f / 2000) ** 8);
}

const response: Response = {
  fHz,
  levelDb: fHz.map((f) => (f > 6000 ? null : levelDb(f))),
  phaseDeg: fHz.map(() => 0),
  valid: fHz.map((f) => f > 50 && f < 6000),
  levelSigmaDb: fHz.map(() => 0.1),
};

/** A take that is sound, with one limit. */
export const madeUpReading: Reading = {
  schema: 'kickpanel.read/1',
  reference: 'full-scale',
  quality: {
    usable: true,
    verdict: 'This take can be read.',
    startS: 0.75566,
    driftPpm: 43.04,
    driftSigmaPpm: 0.031,
    peakDbfs: -6.21,
    input: 1,
    inputs: 2,
    rateHz: 48_000,
    bits: 24,
    durationS: 8.34,
    problems: [
      {
        code: 'low-snr',
        severity: 'limit',
        message: 'The treble is in the noise.',
        mend: 'Play it louder.',
        atS: 3.204,
      },
    ],
  },
  response,
  arrivalS: 0.00148656,
  arrivalSigmaS: 0.0000041,
  polarity: { sign: -1, confidence: 0.984, reason: 'the first movement goes down' },
  band: { lowHz: 99.8, lowSlopeDbPerOctave: 24.2, highHz: 2004, highSlopeDbPerOctave: null },
  distortion: {
    fHz: [62.5, 125, 250, 500],
    thdPct: [1.096, 0.6625, null, 0.1416],
    h2Pct: [1, 0.6, null, 0.14],
    h3Pct: [0.4, 0.2, null, 0.01],
    h4Pct: [0, 0, null, 0],
    h5Pct: [0, 0, null, 0],
    floorPct: [0.1, 0.7, null, 0.01],
    valid: [true, false, false, true],
  },
  withheld: [{ field: 'bands', code: 'low-snr', message: 'Too little of the band is above the noise.' }],
};

/** A take that says nothing: two stops with one remedy, and a note. */
export const unusableReading: Reading = {
  schema: 'kickpanel.read/1',
  reference: 'full-scale',
  quality: {
    ...madeUpReading.quality,
    usable: false,
    verdict: 'This take cannot be read: it clips and breaks off.',
    problems: [
      { code: 'clipped-digital', severity: 'stop', message: 'It clips.', mend: 'Turn the recorder down.' },
      {
        code: 'truncated',
        severity: 'stop',
        message: 'The end is missing.',
        mend: 'Record until the track has ended.',
      },
      { code: 'agc', severity: 'stop', message: 'The gain moves.', mend: 'Turn the recorder down.' },
      { code: 'clock-drift', severity: 'note', message: 'The clock is off.', mend: 'Nothing need be done.' },
    ],
  },
  withheld: [{ field: 'response', code: 'clipped-digital', message: 'The recording clips.' }],
};
