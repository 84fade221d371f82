// Whether each branch behind a distribution block is protected, and the main fuse carries them all.
import { calculation } from '../base/calculation.ts';
import { list, number, optional, record, text } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';
import { loadFactorDefault } from './choose-fuse.ts';

export interface Branch {
  name: string;
  /** Above 0: what the cable of the branch may carry. */
  allowedA: number;
  /** 0 or more. */
  expectedA: number;
  /** Its own fuse at the block, above 0. */
  fuseA?: number | undefined;
}

const slack = 1e-9;

/**
 * A branch whose cable may carry less than the fuse ahead of it needs its own fuse, no larger than the cable allows.
 *
 * @param upstreamFuseA above 0
 * @param branches      one or more
 * @returns branches in the order given; `mainCarries` when the sum stays within 80 % of the main fuse
 * Source: practice for vehicle wiring, SAE J1292: a fuse wherever the cable gets thinner.
 */
export function branchCheck(
  upstreamFuseA: number,
  branches: readonly Branch[],
): {
  branches: { name: string; needsOwnFuse: boolean; ok: boolean }[];
  totalExpectedA: number;
  mainCarries: boolean;
} {
  const checked = branches.map(({ name, allowedA, fuseA }) => {
    const needsOwnFuse = allowedA < upstreamFuseA;
    return { name, needsOwnFuse, ok: !needsOwnFuse || (fuseA !== undefined && fuseA <= allowedA * (1 + slack)) };
  });
  const totalExpectedA = branches.reduce((sum, { expectedA }) => sum + expectedA, 0);
  const mainCarries = totalExpectedA <= loadFactorDefault * upstreamFuseA * (1 + slack);
  return { branches: checked, totalExpectedA, mainCarries };
}

export const branchCheckCalculation = calculation({
  name: 'branchCheck',
  about: 'whether each branch behind a block is protected and the main fuse carries them all',
  caution: 'The main fuse stays out until every run has been checked for shorts to body.',
  inputs: {
    upstreamFuseA: number('A', { above: 0 }),
    branches: list(
      record({
        name: text,
        allowedA: number('A', { above: 0 }),
        expectedA: number('A', { min: 0 }),
        fuseA: optional(number('A', { above: 0 })),
      }),
    ),
  },
  answer: ({ upstreamFuseA, branches }) => success(branchCheck(upstreamFuseA, branches)),
});
