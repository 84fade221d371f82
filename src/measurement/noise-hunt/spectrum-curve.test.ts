import { expect, test } from 'vitest';
import { simulatedNoise } from '../../../test/noise-hunt/simulated-noise.ts';
import { recordingFromArrays } from '../../signals/recording.ts';
import { spectrumCurve } from './spectrum-curve.ts';
import { noiseSpectrum } from './tone-search.ts';

test('a tone keeps its level in the curve, wherever between two points it lies', () => {
  for (const fHz of [61, 312, 1279.2, 6101]) {
    const samples = simulatedNoise({ hiss: 1e-5, tones: [{ fHz, rms: 1e-3 }] });
    const spectrum = noiseSpectrum(recordingFromArrays([samples], 16_000), 0);
    if (!spectrum) throw new Error('too short');
    const curve = spectrumCurve(spectrum, 20, 20_000);
    expect(Math.max(...curve.levelDbfs)).toBeGreaterThan(-61);
    expect(Math.max(...curve.levelDbfs)).toBeLessThan(-59.9);
    expect(curve.fHz.at(-1)).toBeLessThanOrEqual(8000);
  }
});
