import { describe, expect, test } from 'vitest';
import {
  type Bench,
  type DriverParts,
  definedBy,
  simulatedTake,
  woofer,
} from '../../../test/impedance/simulated-take.ts';
import { measuredDriver } from './measured-driver.ts';

const sub: DriverParts = { reOhm: 3.5, leH: 2e-3, blTm: 14, mmsKg: 0.15, rmsKgPerS: 3, cmsMPerN: 0.00025 };
const tweeter: DriverParts = { reOhm: 3.1, leH: 0.06e-3, blTm: 2.2, mmsKg: 0.0003, rmsKgPerS: 0.6, cmsMPerN: 0.0001 };

interface Asked {
  leadOhm?: number;
  calibrated?: boolean;
}

/** What is read from one take of a simulated bench. */
function readingOf(bench: Bench, { leadOhm = 0, calibrated = false }: Asked = {}) {
  const take = (one: Bench) => ({ ...simulatedTake(one), simultaneous: true });
  const unplugged = calibrated ? { unplugged: take({ ...bench, unplugged: true, seed: 9 }) } : {};
  return measuredDriver({ pair: take(bench), seriesOhm: bench.seriesOhm, leadOhm, ...unplugged });
}

/** The largest error of what was read against what the parts are defined to mean, percent. */
function worstPct(reading: ReturnType<typeof measuredDriver>, parts: DriverParts): number {
  if (!reading.ok) throw new Error(JSON.stringify(reading.issues));
  const { driver } = reading.value;
  const truth = { ...definedBy(parts), reOhm: parts.reOhm };
  const errors = (Object.keys(truth) as (keyof typeof truth)[]).map((key) => Math.abs(driver[key] / truth[key] - 1));
  return 100 * Math.max(...errors);
}

describe('an impedance sweep through a known resistor', () => {
  test.each<[string, Bench, number]>([
    ['a woofer', { driver: woofer, seriesOhm: 10 }, 0.3],
    ['a woofer through 100 ohm', { driver: woofer, seriesOhm: 100 }, 0.4],
    ['a sub at 26 Hz', { driver: sub, seriesOhm: 10 }, 0.3],
    ['a tweeter at 919 Hz, 44.1 kHz', { driver: tweeter, seriesOhm: 10, rateHz: 44_100 }, 0.5],
    ['a woofer in noise 50 dB under the sweep', { driver: woofer, seriesOhm: 10, noise: 0.0016 }, 1],
    ['a woofer with mains hum 34 dB under the sweep', { driver: woofer, seriesOhm: 10, hum: 0.01 }, 1],
  ])('gives resonance, Qs and resistance of %s', (_, bench, atMostPct) => {
    expect(worstPct(readingOf(bench), bench.driver)).toBeLessThan(atMostPct);
  });

  test('takes leads off where they are told, and counts them as coil where not', () => {
    const bench = { driver: woofer, seriesOhm: 10, leadOhm: 0.2 };
    expect(worstPct(readingOf(bench, { leadOhm: 0.2 }), woofer)).toBeLessThan(0.5);
    const reading = readingOf(bench);
    expect(reading.ok && reading.value.driver.reOhm).toBeCloseTo(3.5, 2);
  });

  test('an unplugged take makes inputs of unlike gain alike', () => {
    const bench = { driver: woofer, seriesOhm: 10, gain: 0.93 };
    expect(worstPct(readingOf(bench), woofer)).toBeGreaterThan(5);
    expect(worstPct(readingOf(bench, { calibrated: true }), woofer)).toBeLessThan(0.5);
  });

  test('two takes one after the other, begun at different times, say the same as one', () => {
    const first = simulatedTake({ driver: woofer, seriesOhm: 10, waitS: 0.3, noise: 0.0005 });
    const second = simulatedTake({ driver: woofer, seriesOhm: 10, waitS: 0.712_34, noise: 0.0005, seed: 5 });
    const pair = { sourceV: first.sourceV, driverV: second.driverV, rateHz: 48_000, simultaneous: false };
    expect(worstPct(measuredDriver({ pair, seriesOhm: 10, leadOhm: 0 }), woofer)).toBeLessThan(1);
  });

  test('the curve passes through the peak that the parts make', () => {
    const reading = readingOf({ driver: woofer, seriesOhm: 10 });
    if (!reading.ok) throw new Error('refused');
    const { fHz, ohm, phaseDeg } = reading.value.curve;
    const at = ohm.indexOf(
      Math.max(
        ...ohm.slice(
          0,
          fHz.findIndex((f) => f > 500),
        ),
      ),
    );
    expect(fHz[at] / definedBy(woofer).fsHz).toBeCloseTo(1, 1);
    // At resonance the suspension's losses alone are left: Bl^2 / Rms over the coil.
    expect(ohm[at] / (woofer.reOhm + woofer.blTm ** 2 / woofer.rmsKgPerS)).toBeCloseTo(1, 1);
    expect(Math.abs(phaseDeg[at])).toBeLessThan(8);
  });

  test('says how sure it is: what noise does shows in its own figure', () => {
    const quiet = readingOf({ driver: woofer, seriesOhm: 10, noise: 0.0003 });
    const loud = readingOf({ driver: woofer, seriesOhm: 10, noise: 0.006 });
    if (!quiet.ok || !loud.ok) throw new Error('refused');
    expect(loud.value.driver.sigmaPct.qts).toBeGreaterThan(3 * quiet.value.driver.sigmaPct.qts);
    expect(loud.value.driver.sigmaPct.qts).toBeLessThan(2);
  });
});

describe('what is not the sweep of a driver is refused', () => {
  const codeOf = (reading: ReturnType<typeof measuredDriver>) => (reading.ok ? 'read' : reading.issues[0].code);
  const { sourceV, driverV, rateHz } = simulatedTake({ driver: woofer, seriesOhm: 10 });
  const read = (source: Float64Array, driver: Float64Array) =>
    measuredDriver({
      pair: { sourceV: source, driverV: driver, rateHz, simultaneous: true },
      seriesOhm: 10,
      leadOhm: 0,
    });
  const silence = new Float64Array(sourceV.length);

  test('inputs the wrong way round, silence, a resistor instead of a driver, nothing on the clips', () => {
    expect(codeOf(read(driverV, sourceV))).toBe('inputs-swapped');
    expect(codeOf(read(silence, driverV))).toBe('silent');
    expect(codeOf(read(sourceV, silence))).toBe('silent');
    expect(
      codeOf(
        read(
          sourceV,
          sourceV.map((value) => 0.25 * value),
        ),
      ),
    ).toBe('no-resonance');
    expect(codeOf(read(sourceV, sourceV))).toBe('no-resonance');
    expect(codeOf(read(new Float64Array(0), new Float64Array(0)))).toBe('silent');
  });

  test('a driver in a vented box is told as that, with the tuning between its two peaks', () => {
    const vented = { sdM2: 0.0135, volumeM3: 0.014, portHz: 55 };
    const reading = readingOf({ driver: woofer, seriesOhm: 10, vented });
    if (reading.ok) throw new Error('read');
    expect(reading.issues[0].code).toBe('two-resonances');
    const [, tunedHz] = /tuned to about (\d+) Hz/.exec(reading.issues[0].message) ?? [];
    // Losses and the coil move the dip by a little.
    expect(Math.abs(Number(tunedHz) / 55 - 1)).toBeLessThan(0.06);
  });

  test('a tone has no curve', () => {
    const tone = sourceV.map((_, n) => 0.5 * Math.sin((2 * Math.PI * 300 * n) / rateHz));
    expect(
      codeOf(
        read(
          tone,
          tone.map((value) => 0.3 * value),
        ),
      ),
    ).not.toBe('read');
  });
});
