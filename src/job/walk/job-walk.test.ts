import { describe, expect, test } from 'vitest';
import { Bench, openJob } from '../../../test/job/given.ts';
import type { Command } from '../commands/commands.ts';
import { holdPointsOf } from '../hold-points/hold-points.ts';
import type { Heard } from './heard-forms.ts';
import { jobWalk, soundOf } from './job-walk.ts';

const set = (part: 'place' | 'driver' | 'channel' | 'load' | 'lead' | 'amplifier', id: string, value: object) =>
  ({ command: 'setPlanPart', part, id, value: value as Record<string, unknown> }) satisfies Command;

const sides = ['left', 'right', 'left', 'right'];
const rows = [1, 2, 3, 4].flatMap((n): Command[] => [
  set('place', `P${n}`, { name: `${sides[n - 1]} ${n < 3 ? 'pillar' : 'door'}` }),
  set('driver', `D${n}`, { place: `P${n}`, coils: 1 }),
  set('load', `N${n}`, { amplifier: `A/${n}`, network: `D${n}/1` }),
  set('lead', `L${n}`, { kind: 'speaker', from: `A/${n}`, to: `D${n}` }),
  set('channel', `C${n}`, {
    output: `DSP/${n}`,
    amplifier: `A/${n}`,
    inputs: [`DSP/${sides[n - 1]}`],
    highPass: { family: 'linkwitz-riley', order: 4, fHz: n < 3 ? 3000 : 80 },
  }),
]);
const begun = () => new Bench().does(openJob, set('amplifier', 'A', {}), ...rows);
const hear = (sound: Heard): Command => ({ command: 'hearSound', sound });
const at = (n: number, place: string | null, polarity: '+' | '-' | '?' = '+') =>
  hear({
    how: 'played',
    side: sides[n - 1] as 'left',
    channels: [`C${n}`],
    heard: place === null ? [] : [{ place, polarity }],
  });
const right = [at(1, 'P1'), at(2, 'P2'), at(3, 'P3'), at(4, 'P4')];

describe('the channel walk of a job', () => {
  test('plays the highest channels first, each with a sound that a tweeter bears', () => {
    const { state } = begun();
    const { next } = jobWalk(state);
    if (next.do !== 'play') throw new Error(next.do);
    expect(next.channel).toMatchObject({ id: 'C1', side: 'left', speakerLead: 'L1', placeName: 'left pillar' });
    expect(soundOf(state, next.channel)).toMatchObject({ fromHz: 3000, levelDbfs: -30, safeForTweeter: true });
  });

  test('heard as planned proves channels, leads and polarities, and closes nothing by itself', () => {
    const bench = begun().does(at(1, 'P1', '?'), ...right.slice(1));
    const { next, proves } = jobWalk(bench.state);
    expect(next.do).toBe('proven');
    expect(proves).toContain('channel C1 reaches');
    expect(proves).toContain('lead L2 connected');
    expect(proves).toContain('driver D2 polarity');
    // Nobody could say which way it moved.
    expect(proves).not.toContain('driver D1 polarity');
    const closed = () => holdPointsOf(bench.state).filter(({ state }) => state === 'closed');
    expect(closed()).toEqual([]);
    bench.does({ command: 'giveEvidence', holdPoints: proves, evidence: { how: 'seen', name: 'Ann' } });
    expect(
      closed()
        .map(({ id }) => id)
        .sort(),
    ).toEqual([...proves].sort());
    expect(jobWalk(bench.state).proves).toEqual([]);
  });

  test('with two leads exchanged asks for the test that tells them apart, then says which to move where', () => {
    const bench = begun().does(at(1, 'P1'), at(2, 'P2'), at(3, 'P4'), at(4, 'P3'));
    const tie = jobWalk(bench.state);
    // Left and right exchanged there: in either layer of leads.
    expect(tie.answer.explanations.map(({ faults }) => faults)).toEqual([
      ['swap:signal:A/3+A/4'],
      ['swap:speaker:P3+P4'],
    ]);
    expect(tie.next).toMatchObject({ do: 'test', test: { test: 'probe-amp:A/3' } });
    bench.does(hear({ how: 'tested', test: 'probe-amp:A/3', outcome: 'P4+' }));
    expect(jobWalk(bench.state).next).toMatchObject({
      do: 'mend',
      faults: [{ act: 'Move L3 from A/4 to A/3 and L4 from A/3 to A/4.' }],
    });
    bench.does(hear({ how: 'mended', what: 'L3 and L4 moved' }));
    const again = jobWalk(bench.state);
    expect(again.next).toMatchObject({ do: 'play', channel: { id: 'C3' } });
    expect([...again.heardOf.keys()]).toEqual(['C1', 'C2']);
    bench.does(at(3, 'P3'), at(4, 'P4'));
    expect(jobWalk(bench.state).next.do).toBe('proven');
  });

  test('whose test contradicts what was heard asks to hear it again, and then for the test again', () => {
    const bench = begun().does(at(1, 'P1'), at(2, 'P2'), at(3, 'P4'), at(4, 'P3'));
    bench.does(hear({ how: 'tested', test: 'probe-amp:A/3', outcome: 'silent' }));
    const contradicted = jobWalk(bench.state);
    expect(contradicted.answer.status).toBe('unexplained');
    expect(contradicted.next).toMatchObject({ do: 'play', channel: { id: 'C3' }, again: true });
    bench.does(at(3, 'P4'));
    expect(jobWalk(bench.state).next).toMatchObject({ do: 'test', test: { test: 'probe-amp:A/3' } });
  });

  test('plays a channel again whose plan was changed after it was heard, and forgets what was taken back', () => {
    const bench = begun().does(...right);
    const last = bench.entries.at(-1)?.id ?? '';
    bench.does({ command: 'undo', entry: last });
    expect(jobWalk(bench.state).next).toMatchObject({ do: 'play', channel: { id: 'C4' } });
    bench.does(right[3], set('load', 'N2', { amplifier: 'A/2', network: 'D2/1', polarity: -1 }));
    expect(jobWalk(bench.state).next).toMatchObject({ do: 'play', channel: { id: 'C2' } });
  });

  test('without channels asks for the plan, and refuses a channel that the plan has not', () => {
    const bench = new Bench().does(openJob);
    expect(jobWalk(bench.state).next).toEqual({ do: 'plan', needs: 'channels' });
    const decision = begun().decided(hear({ how: 'played', side: 'left', channels: ['C9'], heard: [] }));
    expect(decision.ok ? null : decision.issues[0].code).toBe('channel-unknown');
  });
});
