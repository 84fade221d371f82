import { expect, test } from 'vitest';
import { plainNumbers } from '../../charts/number-words.ts';
import type { JobNearWalk } from '../../job/near-walk/job-near-walk.ts';
import type { NearPlan } from '../../wiring/near-plan.ts';
import type { NearPlaceAnswer } from '../../wiring/near-walk.ts';
import {
  bandSentence,
  edgeFigures,
  edgeText,
  levelFigure,
  nearSentence,
  stopsSentence,
  verdictOf,
} from './near-words.ts';

const edge = (fHz: number) => ({ family: 'linkwitz-riley' as const, order: 4, fHz });
const output = (n: number, in1: number, in2: number) => ({
  id: `C${n}`,
  in1,
  in2,
  amp: `A/${n}`,
  place: `P${n}`,
  kind: 'tweeter',
  polarity: 1 as const,
  highPass: edge(2500),
  lowPass: null,
});
const plan: NearPlan = { outputs: [output(1, 1, 0), output(2, 0, 1)], reversibleInputs: false };

const told = (n: number, more: Partial<NearPlaceAnswer> = {}): NearPlaceAnswer => ({
  place: `P${n}`,
  side: n === 1 ? 'left' : 'right',
  polarity: { sign: 1, confidence: 1, reason: '', againstPlan: 1 },
  verdict: 'as-planned',
  channel: `C${n}`,
  channels: [],
  why: '',
  band: null,
  levelDb: -40,
  ...more,
});
const walkOf = (...places: NearPlaceAnswer[]) => ({ places, findings: [] }) as unknown as JobNearWalk;

test('a place is told in two or three words: danger before all, then silence, channel, polarity, side', () => {
  const word = (more: Partial<NearPlaceAnswer>, danger = false) => verdictOf(plan, told(1, more), danger).word;
  expect(word({}, true)).toBe('gets too low');
  expect(word({})).toBe('as planned');
  expect(word({ verdict: 'cannot-say' })).toBe('cannot say');
  expect(word({ verdict: 'differs', channel: null, side: 'none' })).toBe('silent');
  expect(word({ verdict: 'differs', channel: 'C2' })).toBe('plays C2');
  expect(word({ verdict: 'differs', polarity: { ...told(1).polarity, againstPlan: -1 } })).toBe('pulls');
  expect(word({ verdict: 'differs', side: 'right' })).toBe('plays the right side');
});

test('the sentence says how to walk, then how many places are right and what is wrong, and danger alone', () => {
  expect(nearSentence(plan, null, false)).toMatch(
    /^Hold the microphone 3 to 5 cm before each of two cones: everything plays/,
  );
  const pulls = told(2, { verdict: 'differs', polarity: { ...told(2).polarity, againstPlan: -1 } });
  expect(nearSentence(plan, walkOf(told(1), pulls), false)).toBe('One of two places plays as planned. P2 pulls.');
  expect(nearSentence(plan, walkOf(told(1), told(2)), false)).toBe('Two of two places play as planned.');
  const findings = [{ place: 'P1' }] as JobNearWalk['findings'];
  expect(nearSentence(plan, { ...walkOf(told(1)), findings }, false)).toBe('Stop: P1 gets what can destroy it.');
});

const band = {
  lowHz: 2400,
  lowSlopeDbPerOctave: 12,
  highHz: null,
  highSlopeDbPerOctave: null,
  lowSlopeAtLeast: true,
  highSlopeAtLeast: false,
  highPass: null,
  lowPass: null,
};

test('an edge has its planned one beside it only where a filter was fitted more than half an octave away', () => {
  const figures = (fHz: number | null) => {
    const fitted = fHz === null ? null : { family: 'linkwitz-riley' as const, order: 4, fHz, residualDb: 1 };
    return edgeFigures(plan.outputs[0], { ...band, highPass: fitted }, plainNumbers);
  };
  expect(figures(1500).map(({ planned }) => planned)).toEqual(['2.5 kHz / 24']);
  expect(figures(1900).map(({ planned }) => planned)).toEqual([null]);
  expect(figures(null).map((figure) => [edgeText(figure, plainNumbers), figure.planned])).toEqual([
    ['2.4 kHz / 12+', null],
  ]);
});

test('the band row says what it shows', () => {
  expect(bandSentence(plan.outputs[0], band, plainNumbers)).toBe(
    'Planned: from 2.5 kHz up. Found: from 2.4 kHz, at least 12 dB per octave.',
  );
  expect(bandSentence(plan.outputs[0], { ...band, lowHz: null }, plainNumbers)).toBe(
    'Planned: from 2.5 kHz up. Found: where it begins is hidden by its neighbours.',
  );
  expect(bandSentence(plan.outputs[0], null, plainNumbers)).toContain('stands out nowhere');
});

test('a level is held against the place that mirrors it; more than 3 dB is apart', () => {
  const all = [told(1), told(2, { levelDb: -43.5 })];
  expect(levelFigure(plan, all[0], all)).toEqual({ against: 'P2', differenceDb: 3.5, apart: true });
  expect(levelFigure(plan, all[1], [all[1], told(1, { levelDb: -42 })])).toEqual({
    against: 'P1',
    differenceDb: -1.5,
    apart: false,
  });
  expect(levelFigure(plan, all[0], [all[0]])).toBeNull();
});

test('a long recording that does not fit is told by its plays and the places that are open', () => {
  const plays = [{ startS: 2.4 }, { startS: 71 }];
  expect(stopsSentence(plays, 7, 5)).toBe(
    'The recording holds two whole plays of the track, begun at 0:02, 1:11; the list has seven places, five of them are still open.',
  );
});
