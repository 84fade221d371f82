// The path of the signal, and what the tests so far leave of it.
import type { TestName, Tried } from './tried.ts';

export const pathStages = ['source', 'signal leads', 'processor', 'amplifier', 'drivers'] as const;
export type PathStage = (typeof pathStages)[number];

export interface NoisePath {
  stages: { stage: PathStage; suspect: boolean }[];
  /** Where the path was cut and what was heard then; the next cut has heard null. */
  cuts: { before: PathStage; test: TestName; heard: 'still there' | 'silent' | null }[];
  /** The answers exclude each other: nothing is left. */
  contradiction: boolean;
}

const ahead = (stage: PathStage): PathStage[] => pathStages.slice(0, pathStages.indexOf(stage));
const from = (stage: PathStage): PathStage[] => pathStages.slice(pathStages.indexOf(stage));

/** What an answer leaves of the path; absent: all of it. */
const leaves: Partial<Record<TestName, { yes: readonly PathStage[]; no: readonly PathStage[] }>> = {
  sourceUnplugged: { yes: from('processor'), no: ahead('processor') },
  followsVolume: { yes: ['source'], no: from('signal leads') },
  freeLead: { yes: pathStages, no: ['signal leads'] },
  amplifierShorted: { yes: from('amplifier'), no: ahead('amplifier') },
  popAmplifierShorted: { yes: from('amplifier'), no: ahead('amplifier') },
  fallsWithGain: { yes: ahead('amplifier'), no: from('amplifier') },
};

/** Tests that cut the path, and before which stage. */
const cutsBefore: Partial<Record<TestName, PathStage>> = {
  sourceUnplugged: 'processor',
  amplifierShorted: 'amplifier',
  popAmplifierShorted: 'amplifier',
};

/**
 * What the answers so far leave of the path.
 *
 * @param next  the test that is done next, for its cut; null for none
 */
export function noisePath(tried: Tried, next: TestName | null): NoisePath {
  let left: readonly PathStage[] = pathStages;
  for (const [test, { yes, no }] of Object.entries(leaves) as [TestName, { yes: PathStage[]; no: PathStage[] }][]) {
    const answer = tried[test];
    if (typeof answer !== 'boolean') continue;
    // Where the noise is still there behind the source, the control that it follows is not the source's.
    if (test === 'followsVolume' && tried.sourceUnplugged === true) continue;
    const stays = answer ? yes : no;
    left = left.filter((stage) => stays.includes(stage));
  }
  const cuts = (Object.entries(cutsBefore) as [TestName, PathStage][]).flatMap(([test, before]): NoisePath['cuts'] => {
    const answer = tried[test];
    if (typeof answer === 'boolean') return [{ before, test, heard: answer ? 'still there' : 'silent' }];
    return test === next ? [{ before, test, heard: null }] : [];
  });
  return {
    stages: pathStages.map((stage) => ({ stage, suspect: left.includes(stage) })),
    cuts,
    contradiction: left.length === 0,
  };
}
