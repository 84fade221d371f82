// Which covers hide a hold point: what the plan says of routes, places and covers, brought together.
import { partOfTerminal } from '../../plan/networks.ts';
import type { PlanView } from '../rules/plan-view.ts';
import type { HoldPointKind } from './ids.ts';

export interface Hidden {
  /** Ids of covers of the plan, in its order. */
  covers: string[];
  /** Those of them that must be off for a meter or a look. */
  opens: string[];
  /** Whether the plan says anything of it: no covers is then none, and not unknown. */
  known: boolean;
}

type Said = readonly string[] | undefined;

/** Covers that say themselves that they hide one of these; undefined where none does. */
function coversOver({ plan }: PlanView, ids: readonly (string | undefined)[]): Said {
  const over = plan.cover.filter(({ hides }) => hides?.some((hidden) => ids.includes(hidden)));
  return over.length === 0 ? undefined : over.map(({ id }) => id);
}

function overDriver(view: PlanView, id: string): Said[] {
  const driver = view.part('driver', id);
  const box = view.part('enclosure', driver?.enclosure);
  return [
    coversOver(view, [id, driver?.place, box?.id]),
    view.part('place', driver?.place)?.covers,
    box?.covers,
    view.part('place', box?.place)?.covers,
  ];
}

/** A device or driver at the end of a lead. */
function overEnd(view: PlanView, terminal: string | undefined): Said[] {
  if (terminal === undefined) return [];
  const id = partOfTerminal(terminal);
  return view.part('driver', id) === undefined ? [coversOver(view, [id])] : overDriver(view, id);
}

function overLead(view: PlanView, id: string): Said[] {
  const lead = view.part('lead', id);
  return [coversOver(view, [id]), lead?.under, ...overEnd(view, lead?.from), ...overEnd(view, lead?.to)];
}

/** The amplifier's end of a load: what a meter is held to. */
const overAmplifier = (view: PlanView, terminal: string | undefined): Said[] =>
  terminal === undefined ? [] : [coversOver(view, [partOfTerminal(terminal)])];

function overLoad(view: PlanView, id: string): Said[] {
  const lane = view.lanes.find(({ load }) => load.id === id);
  return [
    ...overAmplifier(view, lane?.load.amplifier),
    ...(lane?.drivers ?? []).flatMap((driver) => overDriver(view, driver.id)),
  ];
}

const lanesOn = (view: PlanView, terminal: string | undefined) =>
  terminal === undefined
    ? []
    : view.lanes.filter(({ load }) => load.amplifier === terminal || load.bridgedWith === terminal);

function said(view: PlanView, kind: HoldPointKind, of: string): Said[] {
  switch (kind) {
    case 'run-laid': {
      const run = view.part('run', of);
      return [run?.under, coversOver(view, [of, run?.from, run?.to])];
    }
    // It sits at the end that feeds its run.
    case 'fuse-fitted':
      return [coversOver(view, [of, view.part('run', view.part('fuse', of)?.run)?.from])];
    case 'ground-holds':
      return [coversOver(view, [of, view.part('ground', of)?.of])];
    case 'lead-connected':
      return overLead(view, of);
    case 'coils-read':
      return overLoad(view, of);
    case 'channel-reaches': {
      const terminal = view.part('channel', of)?.amplifier;
      const loads = lanesOn(view, terminal).flatMap(({ load }) => overLoad(view, load.id));
      return [...overAmplifier(view, terminal), ...loads];
    }
    case 'driver-polarity':
      return overDriver(view, of);
    case 'gain-set':
      return overAmplifier(view, of);
    case 'box-fixed': {
      const box = view.part('enclosure', of);
      return [box?.covers, view.part('place', box?.place)?.covers, coversOver(view, [of, box?.place])];
    }
    case 'planned': {
      const point = view.part('holdPoint', of);
      return [point?.behind, coversOver(view, [of, point?.of])];
    }
    // Heard from the seat, or read at the source.
    case 'source-ceiling':
    case 'factory-sounds':
    case 'calls-heard':
    case 'settings-kept':
      return [[]];
  }
}

/** What hides the hold point of this kind and part. */
export function hiddenBehind(view: PlanView, kind: HoldPointKind, of: string): Hidden {
  const all = said(view, kind, of).filter((list) => list !== undefined);
  // Coils are read at the amplifier, wherever they are.
  const at = kind === 'coils-read' ? overAmplifier(view, view.part('load', of)?.amplifier) : all;
  const inOrder = (lists: readonly Said[]) => {
    const hiding = new Set(lists.flatMap((list) => list ?? []));
    return view.plan.cover.flatMap(({ id }) => (hiding.has(id) ? [id] : []));
  };
  return { covers: inOrder(all), opens: inOrder(at), known: all.length > 0 };
}
