import { describe, expect, test } from 'vitest';
import { alternatorTones, type NoiseRecipe, simulatedNoise } from '../../../test/noise-hunt/simulated-noise.ts';
import { noiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import { testNames } from '../../measurement/noise-hunt/tried.ts';
import { recordingFromArrays } from '../../signals/recording.ts';
import { answerText, huntNote, testNamesShort, toneSays } from './hunt-words.ts';
import { moves, noisePlot } from './noise-plot.ts';

const take = (recipe: NoiseRecipe) => ({ recording: recordingFromArrays([simulatedNoise(recipe)], 16_000) });
const whine = (rpm: number, seed: number) => ({
  ...take({ seed, tones: [{ fHz: alternatorTones(rpm, 2.6, 6).rippleHz, rms: 6e-4 }] }),
  rpm,
});

function found() {
  const hunt = noiseHunt(
    { idle: whine(820, 1), revs: whine(2150, 2) },
    { tried: { sourceUnplugged: true, amplifierShorted: true, amplifierDropMv: 240 } },
  );
  if (!hunt.ok) throw new Error('not hunted');
  return hunt.value;
}

describe('the words of a hunt', () => {
  test('name every test, and say each answer as it was given', () => {
    expect(Object.keys(testNamesShort).sort()).toEqual([...testNames].sort());
    expect(answerText('sourceUnplugged', true)).toBe('still there');
    expect(answerText('sourceUnplugged', false)).toBe('silent');
    expect(answerText('followsVolume', false)).toBe('stays');
    expect(answerText('groundDifferenceMv', 14)).toBe('14 mV');
  });

  test('make a note that holds the verdict, the tones, the answers and what to do', () => {
    const note = huntNote(found(), { sourceUnplugged: true, amplifierShorted: true, amplifierDropMv: 240 });
    expect(note).toMatch(/^Noise hunt\. One tone climbs with the engine/);
    expect(note).toMatch(/1279\.\d Hz \/ 3354\.\d Hz: alternator ripple, order 93\.6/);
    expect(note).toContain('Plugs in the processor: still there.');
    expect(note).toContain('Measure the drop: 240 mV.');
    expect(note).toMatch(/To do: Find the bad contact/);
  });

  test('call what the car makes itself its own', () => {
    const [tone] = found().tones;
    expect(toneSays({ ...tone, carsOwn: true })).toBe('the car’s own');
    expect(toneSays({ ...tone, audible: false })).toBe('alternator ripple, not heard');
    expect(moves(tone)).toBe(true);
  });
});

test('a plot of a take marks what climbs where it stands at that speed, at its own level', () => {
  const hunt = found();
  const curve = { take: 'revs' as const, fHz: [1000, 3354, 8000], levelDb: [-90, -64, -90] };
  const spec = noisePlot(curve, [curve], hunt, 'Raised revs', { decimal: '.' });
  expect(spec.marks).toHaveLength(1);
  expect(spec.marks?.[0]).toMatchObject({ y: -64, role: 'stop' });
  expect(spec.marks?.[0].x).toBeCloseTo(3354, 0);
  expect(spec.sentence).toBe('1 tone stands out; 1 climbs with the engine.');
});
