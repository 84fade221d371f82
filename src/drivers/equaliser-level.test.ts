import { describe, expect, test } from 'vitest';
import { type EqualiserBand, equaliserBandSection } from '../signals/filters/equaliser-band.ts';
import { sectionsLevelDb } from '../signals/filters/sections.ts';
import { bandLevelDb, bandsLevelDb, type PlannedBand } from './equaliser-level.ts';
import { bindingLimit, type DrivenDriver, minHighPass, strokeAtClip, toneCeiling } from './limits.ts';

const bands: PlannedBand[] = [
  { type: 'peaking', fHz: 45, gainDb: 6, q: 1 },
  { type: 'peaking', fHz: 300, gainDb: -9, q: 4 },
  { type: 'low-shelf', fHz: 80, gainDb: 5, q: 0.7 },
  { type: 'high-shelf', fHz: 400, gainDb: -4, q: 1 },
];

describe('a planned band', () => {
  test.each(bands)('is that of a processor far from half its rate: %j', (band) => {
    const fHz = [10, 30, 45, 80, 120, 300, 400, 1000];
    // A very fast processor's section is the analogue one.
    const rateHz = 1e6;
    const digital = sectionsLevelDb([equaliserBandSection(band as EqualiserBand, rateHz)], fHz, rateHz);
    fHz.forEach((f, n) => {
      expect(bandLevelDb(band, f)).toBeCloseTo(digital[n], 3);
    });
  });

  test('gives its gain where it stands, half of it at the corner of a shelf, and bands add up', () => {
    expect(bandLevelDb(bands[0], 45)).toBeCloseTo(6, 12);
    expect(bandLevelDb(bands[2], 80)).toBeCloseTo(2.5, 12);
    expect(bandLevelDb(bands[3], 400)).toBeCloseTo(-2, 12);
    expect(bandsLevelDb([bands[0], bands[0]], 45)).toBeCloseTo(12, 12);
    expect(bandsLevelDb([], 45)).toBe(0);
  });
});

describe('a boost in the forecast', () => {
  const driver = { fsHz: 30, reOhm: 3.4, qms: 5, qes: 0.5, sdM2: 0.048, mmsKg: 0.1, coil: { leH: 0 } };
  const sub: DrivenDriver = {
    driver,
    box: { kind: 'sealed', vbM3: 0.03, fillGain: 1 },
    sourceOhm: 0,
    xmaxM: 0.012,
    filters: [{ type: 'lp', family: 'linkwitz-riley', order: 4, hz: 80 }],
  };
  const boosted: DrivenDriver = { ...sub, eq: [{ type: 'peaking', fHz: 25, gainDb: 6, q: 2 }] };
  const power = (ampVrms: number) => ({ thermalW: 10_000, duty: 1, ampVrms });

  test('of 6 dB halves what stroke allows there', () => {
    const plain = bindingLimit(sub, power(60), 24.9, 25.1);
    const lifted = bindingLimit(boosted, power(60), 24.9, 25.1);
    expect(lifted.excursionV / plain.excursionV).toBeCloseTo(10 ** (-6 / 20), 3);
  });

  test('makes the amplifier clip that much earlier, and gives no more than it has', () => {
    const [at25] = toneCeiling(boosted, power(10), [25]);
    const plain = bindingLimit(sub, power(10), 20, 200);
    const lifted = bindingLimit(boosted, power(10), 20, 200);
    expect(plain.limit).toBe('amplifier');
    expect(lifted.amplifierV / plain.amplifierV).toBeCloseTo(10 ** (-6 / 20), 2);
    expect(at25.volt).toBeCloseTo(10, 9);
    expect(strokeAtClip(boosted, 10, 25, 26).xPeakM).toBeLessThanOrEqual(
      strokeAtClip({ ...sub, filters: [] }, 10, 25, 26).xPeakM,
    );
  });

  test('against a high-pass asks for a higher one', () => {
    const filter = { family: 'butterworth', order: 4 } as const;
    const corner = (eq: PlannedBand[]) => {
      const found = minHighPass({ ...sub, xmaxM: 0.002, eq }, 20, filter);
      return found.ok ? (found.value.highPassHz ?? 0) : 0;
    };
    expect(corner([{ type: 'low-shelf', fHz: 150, gainDb: 6, q: 0.7 }])).toBeGreaterThan(1.05 * corner([]));
  });
});
