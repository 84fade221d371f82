import { describe, expect, test } from 'vitest';
import { gauss } from '../../base/random.ts';
import { recordingFromArrays } from '../../signals/recording.ts';
import { hissSource, toneAudibility } from './noise-levels.ts';
import { trackedTones } from './order-tracking.ts';
import { type FoundTone, foundTones, noiseSpectrum } from './tone-search.ts';

const RATE_HZ = 16_000;

function spectrumOf(seed: number, tones: { fHz: number; peak: number }[], rms = 1e-3) {
  const samples = Float64Array.from({ length: 4 * RATE_HZ }, (_, n) =>
    tones.reduce(
      (sum, { fHz, peak }) => sum + peak * Math.sin((2 * Math.PI * fHz * n) / RATE_HZ),
      rms * gauss(seed, n),
    ),
  );
  const spectrum = noiseSpectrum(recordingFromArrays([samples], RATE_HZ), 0);
  if (!spectrum) throw new Error('too short');
  return spectrum;
}

const heard = (fHz: number, levelDbfs = -60): FoundTone => ({ fHz, levelDbfs, overSurroundingsDb: 20 });

describe('tones in noise', () => {
  test('are not invented: twenty stretches of noise have none', () => {
    for (let seed = 0; seed < 20; seed++) expect(foundTones(spectrumOf(500 + seed, []))).toEqual([]);
  });

  test('have their frequency within a fifth of a hertz and their level within a tenth of a decibel, between bins too', () => {
    for (const fHz of [311.7, 1200, 1200.9765625, 4000.4]) {
      const [tone, ...more] = foundTones(spectrumOf(1, [{ fHz, peak: 0.01 }]));
      expect(more).toEqual([]);
      expect(Math.abs(tone.fHz - fHz)).toBeLessThan(0.2);
      // A sine of peak 0.01 has a mean square of 5e-5: -43.01 dB.
      expect(Math.abs(tone.levelDbfs + 43.01)).toBeLessThan(0.1);
    }
  });

  test('are compared with the noise of their third octave', () => {
    // White noise of rms 1e-3 up to 8 kHz: from 1000 2^(-1/6) to 1000 2^(1/6) Hz lie 231.6 of 8000 Hz, -75.4 dB.
    const spectrum = spectrumOf(3, [{ fHz: 1000, peak: 2e-4 }]);
    const { bandNoiseDbfs, overNoiseDb, audible } = toneAudibility(spectrum, { fHz: 1000, levelDbfs: -76.99 });
    expect(Math.abs(bandNoiseDbfs + 75.38)).toBeLessThan(1);
    expect(overNoiseDb).toBeCloseTo(-76.99 - bandNoiseDbfs, 9);
    expect(audible).toBe(true);
    expect(toneAudibility(spectrum, { fHz: 1000, levelDbfs: -85 }).audible).toBe(false);
  });

  test('are compared with it where a third octave is narrower than a tone’s bins, too', () => {
    // 6.33 of 8000 Hz of noise of rms 1e-3: -91 dB.
    const { bandNoiseDbfs } = toneAudibility(spectrumOf(4, [{ fHz: 27.3, peak: 2e-3 }]), { fHz: 27.3, levelDbfs: -57 });
    expect(Math.abs(bandNoiseDbfs + 91)).toBeLessThan(2.5);
  });

  test('a recording too short to tell has no spectrum', () => {
    expect(noiseSpectrum(recordingFromArrays([new Float64Array(8000)], RATE_HZ), 0)).toBeNull();
  });
});

describe('tones at two speeds', () => {
  test('that stand still where another one would go are left there, and said to overlap', () => {
    // 1200 Hz at 800 rpm goes to 2400 at 1600; 2400 stands still.
    const tones = trackedTones(
      { rpm: 800, tones: [heard(1200), heard(2400)] },
      { rpm: 1600, tones: [heard(2400), heard(2400.1)] },
    );
    expect(tones.map((tone) => tone.class)).toEqual(['alternator ripple', 'fixed']);
  });

  test('read off a needle still pair up, by the ratio that most of them agree on', () => {
    const first = [heard(1200), heard(400), heard(800)];
    const second = [heard(2352), heard(784), heard(1568)];
    // The needle said 800 and 1600; the ratio was 1.96, 2 % off.
    const classes = (speed: 'counter' | 'needle') =>
      trackedTones({ rpm: 800, tones: first }, { rpm: 1600, tones: second }, speed).map((tone) => tone.class);
    expect(classes('needle')).toEqual(['alternator ripple', 'alternator phase', 'alternator ripple']);
    expect(classes('counter')).toContain('in one only');
  });

  test('one member alone is no mains family', () => {
    const tones = (list: FoundTone[]) =>
      trackedTones({ rpm: 800, tones: list }, { rpm: 1600, tones: list }).map((tone) => tone.class);
    expect(tones([heard(100)])).toEqual(['fixed']);
    expect(tones([heard(100), heard(150)])).toEqual(['mains', 'mains']);
  });

  test('speeds too close to each other are refused', () => {
    expect(() => trackedTones({ rpm: 800, tones: [] }, { rpm: 830, tones: [] })).toThrow(RangeError);
  });
});

test('hiss that falls with the control comes from before it', () => {
  expect(hissSource(-5.8, 6)).toBe('before');
  expect(hissSource(-0.4, 6)).toBe('after');
  expect(hissSource(-3, 6)).toBe('cannot say');
  expect(() => hissSource(-1, 0)).toThrow(RangeError);
});
