import { describe, expect, test } from 'vitest';
import { nearWalkAnswerSchema } from '../cli/schemas/near-walk.ts';
import { nearTake } from '../measurement/near-field/near-take.ts';
import { renderNearTakes, nearWalk as simulatedWalk } from '../practice/near-field/render-near-takes.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import type { TrackDescription } from '../signals/track.ts';
import { designTrack } from '../signals/track-design/design-track.ts';
import { nearPlanContradictions, nearPlanSchema } from './near-plan.ts';
import { nearWalk } from './near-walk.ts';

function trackOf(code: number): TrackDescription {
  const designed = designTrack({ kind: 'near', rateHz: 32_000, stimulusS: 1, code });
  if (!designed.ok) throw new Error(designed.issues[0].message);
  return designed.value;
}

const track = trackOf(17);

/** Rendering is what takes the time. */
const kept = new Map<string, ReturnType<typeof renderNearTakes>>();

/** The walk of a simulated car, the places named left out or recorded otherwise. */
function walked(
  seed: number,
  faults: string[],
  change: { without?: string[]; gainDb?: Record<string, number>; otherTrack?: string[]; sign?: 1 | -1 } = {},
) {
  const walk = simulatedWalk(seed, faults);
  const takesWith = (played: TrackDescription) => {
    const key = `${seed} ${faults.join()} ${played.code}`;
    const takes = kept.get(key) ?? renderNearTakes({ walk, track: played, recorder: { rateHz: 32_000 } });
    kept.set(key, takes);
    return takes;
  };
  const usual = takesWith(track);
  const takes = new Map(
    usual
      .filter(({ place }) => !change.without?.includes(place))
      .map(({ place, samples, rateHz }) => {
        const gain = (change.sign ?? 1) * 10 ** ((change.gainDb?.[place] ?? 0) / 20);
        const heard = change.otherTrack?.includes(place)
          ? takesWith(trackOf(200)).find((take) => take.place === place)?.samples
          : samples;
        const steps = 2 ** 23;
        const clipped =
          heard?.map((value) => Math.max(-1, Math.min(1, Math.round(gain * value * steps) / steps))) ??
          new Float64Array(1);
        return [place, nearTake(recordingFromArrays([clipped], rateHz, 2 ** -23), track)] as const;
      }),
  );
  return nearWalk(nearPlanSchema.parse(walk.plan), takes);
}

describe('a near-field walk', () => {
  test('of a car as planned says so at every place, and asks for nothing', () => {
    const answer = walked(2, []);
    expect(answer).toMatchObject({ status: 'as planned', minCost: 0, nextTests: [], findings: [], notProven: [] });
    expect(answer.places.map(({ verdict }) => verdict)).toEqual(Array(5).fill('as-planned'));
    expect(answer.places.map(({ side }) => side)).toEqual(['left', 'right', 'left', 'right', 'both']);
    expect(answer.places.map(({ channel }) => channel)).toEqual(['out1', 'out2', 'out3', 'out4', 'out5']);
    nearWalkAnswerSchema.parse({ schema: 'kickpanel.nearwalk/1', ...answer });
  });

  test('finds a reversed driver, and that its lead or its output may be turned over', () => {
    const answer = walked(2, ['reversed:speaker:front left door']);
    expect(answer.explanations.map(({ faults }) => faults)).toEqual([
      ['invert:out3'],
      ['reversed:speaker:front left door'],
    ]);
    expect(answer.places.find(({ place }) => place === 'front left door')).toMatchObject({
      verdict: 'differs',
      polarity: { sign: -1, againstPlan: -1 },
    });
    expect(answer.nextTests[0].test).toBe('view-setting:out3');
  });

  test('stops first where a tweeter gets a mid’s sound, then names the exchange', () => {
    const answer = walked(4, ['swap:speaker:front left tweeter+front left mid']);
    expect(answer.findings[0]).toMatchObject({ severity: 'stop', place: 'front left tweeter' });
    expect(answer.explanations.map(({ faults }) => faults)).toEqual([
      ['swap:signal:amp1+amp3'],
      ['swap:speaker:front left tweeter+front left mid'],
    ]);
  });

  test('left heard right and right heard left is one exchange at the source', () => {
    expect(walked(2, ['swap:input:in1+in2']).explanations).toEqual([{ faults: ['swap:input:in1+in2'], cost: 10 }]);
  });

  test('a recorder that turns everything over accuses no lead', () => {
    const answer = walked(2, [], { sign: -1 });
    expect(answer.explanations).toEqual([{ faults: [], cost: 0 }]);
    expect(answer.remarks.join()).toContain('the source or the recorder is turned over');
    expect(answer.places.every(({ polarity }) => polarity.sign === -1 && polarity.againstPlan === 1)).toBe(true);
  });

  test('takes that are clipped, silent or of another track say nothing of their place, and why', () => {
    const answer = walked(2, [], {
      gainDb: { 'front left door': 40, sub: -200 },
      otherTrack: ['front right door'],
    });
    const why = (name: string) => answer.places.find(({ place }) => place === name);
    expect(why('front left door')).toMatchObject({ verdict: 'cannot-say', side: null, channel: null });
    expect(why('front left door')?.why).toMatch(/clipped/);
    expect(why('sub')?.why).toMatch(/zero|quiet/);
    expect(why('front right door')?.why).toMatch(/Another track/);
    expect(answer).toMatchObject({ minCost: 0, explanations: [{ faults: [] }] });
    expect(answer.notProven).toEqual(expect.arrayContaining(['front left door', 'front right door', 'sub']));
    expect(answer.nextTests.map(({ test: name }) => name)).toContain('near-take:front left door');
  });

  test('a place without a take stays open and is not accused', () => {
    const answer = walked(2, ['mute:out5'], { without: ['sub', 'front left tweeter'] });
    expect(answer.explanations).toEqual([{ faults: [], cost: 0 }]);
    expect(answer.notProven).toEqual(expect.arrayContaining(['front left tweeter', 'sub']));
    expect(answer.nextTests.map(({ test: name }) => name)).toContain('near-take:front left tweeter');
  });

  test('no usable take at all is no verdict', () => {
    const plan = nearPlanSchema.parse(simulatedWalk(2, []).plan);
    expect(nearWalk(plan, new Map())).toMatchObject({
      status: 'nothing to go by',
      places: [],
      explanations: [],
      minCost: null,
      unexplained: false,
    });
  });
});

test('a plan whose names or filters contradict each other is refused with the place', () => {
  const [one, two] = simulatedWalk(2, []).plan.outputs;
  const odd = {
    ...one,
    id: two.id,
    highPass: { family: 'linkwitz-riley', order: 3, fHz: 3000 },
    lowPass: { family: 'butterworth', order: 2, fHz: 200 },
  };
  const issues = nearPlanContradictions(nearPlanSchema.parse({ outputs: [odd, { ...two, in1: 0, in2: 0 }] }));
  expect(issues.map(({ where }) => where)).toEqual(['outputs', 'outputs[0].highPass', 'outputs[0]', 'outputs[1]']);
});
