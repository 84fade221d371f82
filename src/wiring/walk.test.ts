import { describe, expect, test } from 'vitest';
import { channelWalk } from './walk.ts';
import { type WalkRequest, walkContradictions, walkSchema } from './walk-request.ts';

const names = ['left tweeter', 'right tweeter', 'left door', 'right door'];

function walk(
  heard: Record<string, { place: string; polarity?: string }[]>,
  more: { reversibleInputs?: boolean; answers?: WalkRequest['answers']; sub?: boolean } = {},
): WalkRequest {
  const outputs = names.map((place, i) => ({
    id: `out${i + 1}`,
    in1: i % 2 === 0 ? 1 : 0,
    in2: i % 2,
    amp: `amp${i + 1}`,
    place,
  }));
  if (more.sub) outputs.push({ id: 'out5', in1: 0.5, in2: 0.5, amp: 'amp5', place: 'sub' });
  const observations = Object.entries(heard).map(([test, places]) => {
    const [side, output] = test.split(' ');
    return { side, outputs: output === 'all' ? 'all' : [output], heard: places };
  });
  const { reversibleInputs = false, answers = [] } = more;
  return walkSchema.parse({ plan: { outputs, reversibleInputs }, observations, answers });
}

const faultsOf = (request: WalkRequest) => channelWalk(request).explanations.map(({ faults }) => faults);
const plus = (place: string) => [{ place, polarity: '+' }];
const minus = (place: string) => [{ place, polarity: '-' }];

describe('a channel walk', () => {
  test('of a car as planned says so, and asks for nothing', () => {
    const answer = channelWalk(
      walk(Object.fromEntries(names.map((place, i) => [`both out${i + 1}`, plus(place)] as const))),
    );
    expect(answer).toMatchObject({ status: 'as planned', minCost: 0, nextTests: [], notProven: [] });
    expect(answer.explanations).toEqual([{ faults: [], cost: 0 }]);
  });

  test('a silent output may be muted, or have either lead open; its settings are looked at first', () => {
    const answer = channelWalk(walk({ 'both out2': [] }));
    expect(answer.explanations.map(({ faults }) => faults)).toEqual([
      ['mute:out2'],
      ['open:signal:amp2'],
      ['open:speaker:right tweeter'],
    ]);
    expect(answer.nextTests[0].test).toBe('view-setting:out2');
    // One of three against two of three: log2(3) - 2/3 bits.
    expect(answer.nextTests[0].valueBits).toBeCloseTo(Math.log2(3) - 2 / 3, 12);
    const after = channelWalk(
      walk({ 'both out2': [] }, { answers: [{ test: 'view-setting:out2', outcome: 'muted/normal' }] }),
    );
    expect(after).toMatchObject({ status: 'explained', explanations: [{ faults: ['mute:out2'] }] });
  });

  test('left heard right and right heard left is one exchange at the source, not four', () => {
    expect(
      faultsOf(
        walk({
          'left all': [...plus('right tweeter'), ...plus('right door')],
          'right all': [...plus('left tweeter'), ...plus('left door')],
          'both out1': plus('left tweeter'),
          'both out2': plus('right tweeter'),
          'both out3': plus('left door'),
          'both out4': plus('right door'),
        }),
      ),
    ).toEqual([['swap:input:in1+in2']]);
  });

  test('a sub that sounds on either side and not on both has one input reversed', () => {
    const heard = {
      'both out5': [],
      'left out5': plus('sub'),
      'right out5': minus('sub'),
      'both out2': minus('right tweeter'),
      'both out1': plus('left tweeter'),
    };
    expect(faultsOf(walk(heard, { sub: true, reversibleInputs: true }))).toEqual([['reversed:input:in2']]);
  });

  test('three leads gone round are one cycle in one layer, or an exchange in each', () => {
    const answer = channelWalk(
      walk({
        'both out1': plus('right tweeter'),
        'both out2': plus('right door'),
        'both out4': plus('left tweeter'),
        'both out3': plus('left door'),
      }),
    );
    expect(answer.minCost).toBe(20);
    const sets = answer.explanations.map(({ faults }) => faults.join(' '));
    expect(sets).toContain('cycle:signal:amp1>amp2>amp4');
    expect(sets).toContain('cycle:speaker:left tweeter>right tweeter>right door');
    // A cycle of three has five pairs of factors without waste: Catalan number 5.
    expect(sets).toHaveLength(5);
  });

  test('everything the other way round is the source or the recorder, not every lead', () => {
    const answer = channelWalk(
      walk(Object.fromEntries(names.map((place, i) => [`both out${i + 1}`, minus(place)] as const))),
    );
    expect(answer.minCost).toBe(0);
    expect(answer.remarks.join()).toContain('the other way round');
  });

  test('one side the other way round is a reversed source lead as long as the other side was not heard', () => {
    const request = walk(
      { 'both out1': minus('left tweeter'), 'both out3': minus('left door'), 'both out5': minus('sub') },
      { sub: true, reversibleInputs: true },
    );
    request.plan.outputs[4].in2 = 0;
    expect(faultsOf(request)).toEqual([['reversed:input:in1']]);
  });

  test('one output at two places has no explanation, and the odd observation is named', () => {
    const answer = channelWalk(
      walk({
        'both out1': plus('left tweeter'),
        'both out2': [...plus('right tweeter'), ...plus('left door')],
        'both out3': plus('left door'),
      }),
    );
    expect(answer).toMatchObject({ status: 'unexplained', minCost: null, unexplained: true, doubtful: 1 });
  });

  test('a tweeter that gets a door’s sound is a danger before it is a puzzle', () => {
    const { remarks } = channelWalk(walk({ 'both out3': plus('left tweeter') }));
    expect(remarks[0]).toContain('out3 is meant for left door and sounds at left tweeter: stop');
  });

  test('a polarity that nobody could tell stays unproven and accuses nobody', () => {
    const answer = channelWalk(walk({ 'both out1': [{ place: 'left tweeter', polarity: '?' }] }));
    expect(answer.minCost).toBe(0);
    expect(answer.notProven).toContain('left tweeter');
  });

  test('sixteen channels with three faults are explained in under a second', () => {
    const outputs = Array.from({ length: 16 }, (_, i) => ({
      id: `out${i}`,
      in1: 1,
      in2: 0,
      amp: `amp${i}`,
      place: `place ${i}`,
    }));
    const at = (i: number) => (i === 3 ? 9 : i === 9 ? 3 : i);
    const observations = outputs.map(({ id }, i) => ({
      side: 'both',
      outputs: [id],
      heard: i === 5 ? [] : [{ place: `place ${at(i)}`, polarity: i === 7 ? '-' : '+' }],
    }));
    const began = performance.now();
    const answer = channelWalk(walkSchema.parse({ plan: { outputs }, observations }));
    expect(performance.now() - began).toBeLessThan(1000);
    // Exchange in either layer, three ways to be silent, two to be turned over.
    expect([answer.minCost, answer.explanations.length]).toEqual([30, 2 * 3 * 2]);
  });

  test('names that do not fit together are told, each with its place', () => {
    const request = walk(
      { 'both out9': [{ place: 'roof' }, { place: 'roof' }] },
      { answers: [{ test: 'x', outcome: 'y' }] },
    );
    request.plan.outputs[1].amp = 'amp1';
    expect(walkContradictions(request).map(({ where }) => where)).toEqual([
      'plan.outputs',
      'observations[0].outputs',
      'observations[0].heard',
      'observations[0].heard',
      'answers[0].test',
    ]);
    expect(walkContradictions(walk({}))).toEqual([]);
  });
});
