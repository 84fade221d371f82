// The high-pass to begin with: what is planned, but never lower than what the driver bears at the amplifier's clip voltage.
import type { PartOf } from '../../plan/plan.ts';
import { highPassTooLow } from '../rules/high-pass-too-low.ts';
import type { Lane, PlanView } from '../rules/plan-view.ts';
import { isUnknown } from '../rules/rule.ts';
import { defaultSettings } from '../rules/settings.ts';
import { called } from '../rules/words.ts';

type Edge = NonNullable<PartOf<'channel'>['highPass']>;

/** Where a driver of which nothing more is known begins: trade practice, well above what any of its kind bears. */
const practiceHz = { tweeter: 5000, mid: 500, 'full-range': 250, midbass: 100, sub: null } as const;

export interface StartingEdge {
  edge: Edge | null;
  /** Why it is not what is planned, or what cannot be told of it; null where there is nothing to say. */
  note: string | null;
}

/** By driver: the corner that its stroke and its resonance ask for, or what is not known. */
export type SafeCorners = ReadonlyMap<string, { safeHz: number } | { needs: string }>;

/** Safe corners of all drivers that are planned lower or of which it cannot be told; the others are safe as planned. */
export function safeCorners(view: PlanView): SafeCorners {
  const corners = new Map<string, { safeHz: number } | { needs: string }>();
  for (const outcome of highPassTooLow.check(view, defaultSettings)) {
    if (outcome === null) continue;
    const driver = outcome.place.replace(/^driver /, '');
    if (isUnknown(outcome)) corners.set(driver, { needs: outcome.needs });
    else {
      const safe = outcome.values.safeHighPassHz;
      corners.set(driver, { safeHz: typeof safe === 'number' ? safe : Number.POSITIVE_INFINITY });
    }
  }
  return corners;
}

/** The higher of two corners; null is none. */
const higher = (edge: Edge | null, fHz: number): Edge =>
  edge === null ? { family: 'linkwitz-riley', order: 4, fHz } : { ...edge, fHz: Math.max(edge.fHz, fHz) };

/**
 * The high-pass of a channel for the first sound.
 *
 * @param lanes  the loads that the channel drives; a passive crossover between counts as a high-pass
 */
export function startingEdge(channel: PartOf<'channel'>, lanes: readonly Lane[], corners: SafeCorners): StartingEdge {
  let edge: Edge | null = channel.highPass ?? null;
  const notes: string[] = [];
  for (const { load, drivers } of lanes) {
    if (load.passive !== undefined) continue;
    for (const driver of drivers) {
      const corner = corners.get(driver.id);
      if (corner !== undefined && 'safeHz' in corner) {
        if (!Number.isFinite(corner.safeHz)) {
          notes.push(`No high-pass keeps ${called(driver)} within its stroke: leave this channel muted.`);
          continue;
        }
        if (corner.safeHz > (edge?.fHz ?? 0)) {
          edge = higher(edge, corner.safeHz);
          notes.push(`${called(driver)} bears nothing lower than ${corner.safeHz} Hz at what its amplifier can give.`);
        }
      } else if (edge === null && driver.kind !== undefined) {
        const fHz = practiceHz[driver.kind];
        if (fHz === null) continue;
        edge = higher(null, fHz);
        notes.push(`No high-pass is planned: ${fHz} Hz by practice for a ${driver.kind}.`);
      } else if (corner !== undefined && 'needs' in corner) {
        notes.push(`Whether ${called(driver)} bears this corner: cannot tell, ${corner.needs} is not known.`);
      }
    }
  }
  return { edge, note: notes.length === 0 ? null : [...new Set(notes)].join(' ') };
}
