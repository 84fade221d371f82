// The covers of a job in words.
import type { CoverState } from '../../job/entry-kinds.ts';

export const coverOrder = ['off', 'resting', 'fastened'] as const;

export type KnownCoverState = (typeof coverOrder)[number];

/** What one press makes of a cover: off, resting, fastened, and round again. One that nobody has spoken of is off first. */
export function nextCoverState(state: KnownCoverState | undefined): KnownCoverState {
  const at = coverOrder.indexOf(state ?? 'fastened');
  return coverOrder[(at + 1) % coverOrder.length];
}

/** `B`, `B and C`, `B, C and D` */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** One short statement about all covers, without a full stop. */
export function coversText(covers: readonly CoverState[]): string {
  if (covers.length === 0) return 'covers not said';
  const having = (wanted: KnownCoverState) =>
    covers
      .filter(({ state }) => state === wanted)
      .map(({ cover }) => cover)
      .sort();
  const off = having('off');
  const resting = having('resting');
  if (off.length === 0 && resting.length === 0) return 'all covers fastened';
  const parts = [
    off.length > 0 ? `${listed(off)} off` : '',
    resting.length > 0 ? `${listed(resting)} resting` : '',
  ].filter(Boolean);
  return off.length + resting.length === covers.length ? parts.join(', ') : `${parts.join(', ')}, the others fastened`;
}

/** Whether this is the car that the customer drives. */
export function asDriven(covers: readonly CoverState[]): boolean {
  return covers.length > 0 && covers.every(({ state }) => state === 'fastened');
}
