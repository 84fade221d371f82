import { describe, expect, test } from 'vitest';
import { madeUpReading, unusableReading } from './made-up-reading.ts';
import { bandText, distortionText as firmDistortionText, polarityText, readingSummary } from './reading-summary.ts';

const distortionText = (...call: Parameters<typeof firmDistortionText>) =>
  firmDistortionText(...call).replaceAll('\u00a0', ' ');

const style = { width: 80, unicode: true, colour: false };
const text = readingSummary(madeUpReading, style);

describe('the summary of a sound take', () => {
  test('begins with the verdict', () => {
    expect(text.startsWith('This take can be read.\n')).toBe(true);
  });

  test('says each problem with its code, its place and what to do', () => {
    expect(text).toContain('Limit: The treble is in the noise. (low-snr at 3.20 s)\n');
    expect(text).toContain('Play it louder.');
  });

  test('does not repeat what the verdict has said', () => {
    const quality = { ...madeUpReading.quality, verdict: 'Usable in part: the treble is in the noise.' };
    expect(readingSummary({ ...madeUpReading, quality }, style)).toContain(
      'Limit: as said above (low-snr at 3.20 s)\n',
    );
  });

  test.each([
    ['Recording        input 1 of 2, 48 kHz, 24 bit, 8.3 s, peak -6.2 dBFS'],
    ['Track starts at  0.7557 s'],
    ["Clock drift      +43.04 ± 0.03 ppm (the recorder's clock is fast)"],
    ['Arrival          1.487 ± 0.004 ms after the time reference'],
    ['Plays from       99.8 Hz (24 dB per octave) to 2.00 kHz'],
    ['Distortion       63 Hz 1.1 %, 125 Hz ≤ 0.66 %, 500 Hz 0.14 %'],
  ])('says %j', (line) => {
    expect(text).toContain(`${line}\n`);
  });

  test('says the polarity in words with its reason', () => {
    expect(text.replace(/\n +/g, ' ')).toContain(
      'Polarity         pulls when the track pushes: reversed (confidence 98 %; the first movement goes down)',
    );
  });

  test('draws the response and says what its dots mean', () => {
    expect(text).toContain('Response (dB, recorded over played; dotted: not to be relied on)');
    expect(text).toMatch(/-20 dB ┤/);
    expect(text).toMatch(/50 Hz/);
  });

  test('says what is not said, and why', () => {
    expect(text).toContain('Not said, and why\n  third-octave levels: Too little of the band is above the noise.\n');
    const message = madeUpReading.quality.problems[0].message;
    const withheld = ['distortion', 'arrivalS'].map((field) => ({ field, code: 'low-snr', message }));
    const grouped = readingSummary({ ...madeUpReading, withheld }, style);
    expect(grouped).toContain('Not said, and why\n  distortion, arrival: because of low-snr\n');
  });

  test('fits its width, and plain ASCII where asked', () => {
    for (const width of [60, 80, 120]) {
      const plain = readingSummary(madeUpReading, { width, unicode: false, colour: false });
      for (const line of plain.split('\n')) expect(line.length).toBeLessThanOrEqual(width);
      expect([...plain].every((character) => character <= '~')).toBe(true);
      expect(plain).toContain('<= 0.66 %');
    }
  });

  test('leaves out what the reading leaves out', () => {
    const { response, distortion, arrivalS, arrivalSigmaS, polarity, band, ...rest } = madeUpReading;
    const bare = readingSummary(rest, style);
    for (const word of ['Response', 'Distortion', 'Arrival', 'Polarity', 'Plays from'])
      expect(bare).not.toContain(word);
  });
});

describe('the summary of an unusable take', () => {
  const refused = readingSummary(unusableReading, style);

  test('says what to do now, each remedy once', () => {
    expect(refused).toContain(
      'What to do now\n  1. Turn the recorder down.\n  2. Record until the track has ended.\n\n',
    );
  });

  test('says each remedy only there', () => {
    expect(refused.split('Turn the recorder down.').length).toBe(2);
  });

  test('keeps mere notes out of the way', () => {
    expect(refused).not.toContain('clock-drift');
  });
});

describe('several stimuli', () => {
  test('are listed one by one, a single one is not', () => {
    const sweep = { kind: 'sweep', side: 'left', levelDbfs: -12, startS: 2, arrivalS: 0.001 } as const;
    expect(readingSummary({ ...madeUpReading, stimuli: [sweep] }, style)).not.toContain('Each stimulus');
    const both = readingSummary({ ...madeUpReading, stimuli: [sweep, { ...sweep, side: 'right' }] }, style);
    expect(both).toContain('  left, sweep at -12 dBFS\n    Arrival  1.000 ms after the time reference\n  right, sweep');
  });
});

describe('tones', () => {
  test('are listed, with a bound where noise may have made the distortion up', () => {
    const tone = { fHz: 1000, startS: 1.5, levelDbfs: -12.04, thdPct: 0.02, floorPct: 0.05 };
    const listed = readingSummary({ ...madeUpReading, tones: [tone, { ...tone, fHz: 50, thdPct: null }] }, style);
    expect(listed).toContain('  1.00 kHz at 1.50 s: -12.0 dBFS, distortion ≤ 0.020 %\n');
    expect(listed).toContain('  50 Hz at 1.50 s: -12.0 dBFS, distortion not known\n');
  });
});

describe('words', () => {
  test('for a polarity that cannot be said', () => {
    expect(polarityText({ sign: 0, confidence: 0.5, reason: 'Two arrivals are equally strong.' })).toBe(
      'not sure, because two arrivals are equally strong.',
    );
  });

  test('for a band with an open end', () => {
    expect(bandText({ lowHz: null, lowSlopeDbPerOctave: null, highHz: 349.2, highSlopeDbPerOctave: 23.8 })).toBe(
      'below what was played to 349 Hz (24 dB per octave)',
    );
  });

  test('for distortion leave out a bound that says nothing', () => {
    const wide = { ...madeUpReading.distortion, fHz: [63, 125], valid: [false, false], thdPct: [30, 31] };
    expect(distortionText(wide as NonNullable<typeof madeUpReading.distortion>, style)).toBe('63 Hz \u2264 30 %');
  });

  test('for distortion take the nearest frequency within a sixth of an octave, and nothing farther off', () => {
    const one = { ...madeUpReading.distortion, fHz: [70, 140], valid: [true, true] };
    const both = { ...one, thdPct: [1, 2] } as NonNullable<typeof madeUpReading.distortion>;
    expect(distortionText(both, style)).toBe('63 Hz 1.0 %, 125 Hz 2.0 %');
    expect(distortionText({ ...both, fHz: [71, 177] }, style)).toBe('');
  });
});
