import { expect, test } from 'vitest';
import { analogCrossoverResponse, type Crossover, crossoverSections } from '../../src/signals/filters/crossover.ts';
import { type EqualiserBand, equaliserBandSection, peakingLevelDb } from '../../src/signals/filters/equaliser-band.ts';
import {
  constantPoleQFromCookbookQ,
  cookbookQFromConstantPoleQ,
  cookbookQFromOctaves,
  cookbookQFromSymmetricPoleQ,
  octavesFromCookbookQ,
  symmetricPoleQFromCookbookQ,
} from '../../src/signals/filters/q-definitions.ts';
import { type ComplexResponse, sectionsResponse } from '../../src/signals/filters/sections.ts';
import vectors from './filters.json' with { type: 'json' };

const TOLERANCE = 1e-7;

function worstDifference(got: ComplexResponse, want: { re: number[]; im: number[] }): number {
  expect(got.re.length).toBe(want.re.length);
  let worst = 0;
  want.re.forEach((re, i) => {
    worst = Math.max(worst, Math.abs(got.re[i] - re), Math.abs(got.im[i] - want.im[i]));
  });
  return worst;
}

test.each(vectors.crossovers)('crossover $id: $family $order $type, digital and analog', (vector) => {
  const crossover: Crossover = {
    family: vector.family as Crossover['family'],
    order: vector.order,
    fHz: vector.fc,
    normalisation: vector.norm === 'phase' ? 'phase' : 'magnitude',
  };
  const kind = vector.type === 'lp' ? 'low-pass' : 'high-pass';
  const digital = sectionsResponse(crossoverSections(crossover, kind, vector.fs), vector.f, vector.fs);
  expect(worstDifference(digital, vector.digital)).toBeLessThan(TOLERANCE);
  const analog = analogCrossoverResponse(crossover, kind, vector.f);
  expect(worstDifference(analog, vector.analog)).toBeLessThan(TOLERANCE);
});

const TYPES: Record<string, string> = {
  lowshelf: 'low-shelf',
  highshelf: 'high-shelf',
  allpass1: 'all-pass',
  allpass2: 'all-pass',
  lowpass: 'low-pass',
  highpass: 'high-pass',
  bandpass: 'band-pass',
};

test.each(vectors.cookbook)('equaliser band $id: $kind at $f0 Hz', (vector) => {
  const band = {
    type: TYPES[vector.kind] ?? vector.kind,
    fHz: vector.f0,
    ...(vector.gain_db === undefined ? {} : { gainDb: vector.gain_db }),
    ...(vector.q === undefined ? {} : { q: vector.q }),
    ...(vector.S === undefined ? {} : { slope: vector.S }),
    ...(vector.kind === 'allpass1' ? { order: 1 } : {}),
  } as EqualiserBand;
  const section = equaliserBandSection(band, vector.fs);
  const coefficients = [section.b0, section.b1, section.b2, section.a1, section.a2];
  vector.coeff_b0b1b2a1a2.forEach((want, i) => {
    expect(Math.abs(coefficients[i] - want)).toBeLessThan(TOLERANCE);
  });
  expect(worstDifference(sectionsResponse([section], vector.f, vector.fs), vector.response)).toBeLessThan(TOLERANCE);
  if (vector.kind === 'peaking') {
    const levels = peakingLevelDb(
      { fHz: vector.f0, gainDb: vector.gain_db ?? 0, q: vector.q ?? 0 },
      vector.f,
      vector.fs,
    );
    vector.response.re.forEach((re, i) => {
      expect(levels[i]).toBeCloseTo(20 * Math.log10(Math.hypot(re, vector.response.im[i])), 6);
    });
  }
});

test.each(vectors.q_conversions)('q $q_ours at $gain_db dB in every definition, there and back', (vector) => {
  const { gain_db: gainDb, q_ours: q } = vector;
  const near = (got: number, want: number) => expect(Math.abs(got - want)).toBeLessThan(TOLERANCE);
  near(symmetricPoleQFromCookbookQ(q, gainDb), vector.q_sym_pole);
  near(cookbookQFromSymmetricPoleQ(vector.q_sym_pole, gainDb), q);
  near(constantPoleQFromCookbookQ(q, gainDb), vector.q_always_pole);
  near(cookbookQFromConstantPoleQ(vector.q_always_pole, gainDb), q);
  near(octavesFromCookbookQ(q), vector.bandwidth_octaves_half_gain);
  near(cookbookQFromOctaves(vector.bandwidth_octaves_half_gain), q);
});
