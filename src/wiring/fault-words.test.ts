import { describe, expect, test } from 'vitest';
import { emptyPlan } from '../plan/plan.ts';
import { faultWords, outcomeWords, testWords } from './fault-words.ts';
import { walkOfPlan } from './plan-of-job.ts';

const plan = emptyPlan();
for (const n of [1, 2, 3]) {
  plan.place.push({ id: `P${n}`, name: `place ${n}` });
  plan.driver.push({ id: `D${n}`, place: `P${n}` });
  plan.load.push({ id: `N${n}`, amplifier: `A/${n}`, network: `D${n}/1` });
  plan.channel.push({ id: `C${n}`, output: `DSP/${n}`, amplifier: `A/${n}`, inputs: ['DSP/left', 'DSP/right'] });
  plan.lead.push({ id: `L${n}`, kind: 'speaker', from: `A/${n}`, to: `D${n}` });
}
plan.channel.push({ id: 'C4', output: 'DSP/4' }, { id: 'C5', spare: true });
const walk = walkOfPlan(plan);

test('a plan becomes a walk of what is wholly planned, and says what it lacks of the rest', () => {
  expect(walk.plan.outputs[0]).toEqual({ id: 'C1', in1: 0.5, in2: 0.5, amp: 'A/1', place: 'P1' });
  expect(walk.left).toEqual([{ id: 'C4', needs: 'its output and its amplifier channel' }]);
});

describe('a fault', () => {
  test.each([
    ['swap:speaker:P1+P2', 'Move L1 from A/2 to A/1 and L2 from A/1 to A/2.'],
    ['cycle:speaker:P1>P2>P3', 'Move L1 from A/2 to A/1, L2 from A/3 to A/2 and L3 from A/1 to A/3.'],
    ['swap:signal:A/1+A/3', 'Move the signal lead of A/1 from A/3 to A/1 and the signal lead of A/3 from A/1 to A/3.'],
    ['open:speaker:P2', 'Measure L2 at A/2, unplugged: open means mend the lead or the driver.'],
    ['reversed:speaker:P3', 'Turn L3 over at place 3: plus to plus.'],
    ['mute:C2', 'Take the mute off DSP/2 in the processor.'],
    ['invert:C2', 'Set DSP/2 to normal polarity in the processor.'],
    ['swap:input:in1+in2', 'Exchange the two source leads at the processor.'],
    ['open:input:in1', 'Follow the left source lead and mend it.'],
  ])('%s says what a hand does', (fault, act) => {
    expect(faultWords(walk, fault).act).toBe(act);
  });
});

test('a test and what may come out of it are said with the names of the plan', () => {
  expect(testWords(walk, 'view-setting:C1').ask).toBe('Look at DSP/1 in the processor.');
  expect(testWords(walk, 'probe-amp:A/2').ask).toContain('A/2');
  expect(outcomeWords(walk, 'P3-')).toBe('place 3, turned over');
  expect(outcomeWords(walk, 'muted/normal')).toBe('Muted, normal');
});
