// Currents of the plan: what devices draw, what each run carries, and what is lost on the way.
import { ampCurrent, amplifierClasses, usualEfficiency } from '../../electrical/amp-current.ts';
import { ohmPerMetre } from '../../electrical/conductor.ts';
import { contactOhmDefault } from '../../electrical/supply-drop.ts';
import type { PartOf } from '../../plan/plan.ts';
import { conductorOf } from './cables.ts';
import { laneDrive, lanesOfAmplifier, nominalOhm } from './loads.ts';
import type { PlanView } from './plan-view.ts';

/** Voltage with the engine running. */
export function runningV({ plan }: PlanView): number {
  return plan.vehicle.at(0)?.systemVoltageV === 24 ? 28 : 14.4;
}

/** Part of full power that music takes at the loudest that a job allows: an assumption. */
const dutyAssumed = { sub: 0.33, other: 0.2 };

export interface Drawn {
  /** At full sine, and in music. */
  sineA: number;
  musicA: number;
}

/** Everything that its channels can give into what is connected, W; undefined where one is not known. */
export function connectedW(view: PlanView, amplifier: PartOf<'amplifier'>): number | undefined {
  const drives = lanesOfAmplifier(view, amplifier.id).map(laneDrive);
  if (drives.length === 0 || drives.includes(undefined)) return undefined;
  return drives.reduce((sum, drive) => sum + (drive?.watt ?? 0), 0);
}

/** Efficiency by the sheet, or by the class at its hardest load. */
export function efficiencyOf(view: PlanView, amplifier: PartOf<'amplifier'>): number | undefined {
  const { efficiency, class: kind } = amplifier;
  if (efficiency !== undefined || kind === undefined) return efficiency;
  const each = lanesOfAmplifier(view, amplifier.id).map((lane) => {
    const ohm = nominalOhm(lane);
    const highest = Math.max(...(lane.output?.ratings ?? []).map((rating) => rating.ohm));
    // Each of two bridged channels sees half the load.
    const seen = ohm === undefined ? highest : lane.load.bridgedWith === undefined ? ohm : ohm / 2;
    return Number.isFinite(highest) && seen > 0
      ? usualEfficiency(kind, seen, highest)
      : amplifierClasses[kind].efficiency;
  });
  return Math.min(amplifierClasses[kind].efficiency, ...each);
}

export function amplifierDraws(view: PlanView, amplifier: PartOf<'amplifier'>): Drawn | undefined {
  const ratedW = connectedW(view, amplifier);
  const efficiency = efficiencyOf(view, amplifier);
  const { class: kind } = amplifier;
  if (ratedW === undefined || efficiency === undefined || kind === undefined) return undefined;
  const duties = lanesOfAmplifier(view, amplifier.id).map(({ load }) => load.duty ?? 0);
  const duty = Math.max(kind === 'D-sub' ? dutyAssumed.sub : dutyAssumed.other, ...duties);
  const idleA = amplifier.idleA ?? (amplifierClasses[kind].idleAPer100W * ratedW) / 100;
  return ampCurrent({ class: kind, ratedW, efficiency, supplyV: runningV(view), idleA, duty });
}

/** What a run carries to everything behind it; undefined where a device is not known, or runs go round in a circle. */
export function runCarries(view: PlanView, run: PartOf<'run'>, seen: readonly string[] = []): Drawn | undefined {
  if (run.to === undefined || seen.includes(run.id)) return undefined;
  const amplifier = view.part('amplifier', run.to);
  if (amplifier !== undefined) return amplifierDraws(view, amplifier);
  const processor = view.part('processor', run.to);
  if (processor !== undefined) {
    const { currentA } = processor;
    return currentA === undefined ? undefined : { sineA: currentA, musicA: currentA };
  }
  if (view.part('block', run.to) === undefined) return undefined;
  const branches = view.runsFrom(run.to).map((branch) => runCarries(view, branch, [...seen, run.id]));
  if (branches.length === 0 || branches.includes(undefined)) return undefined;
  const sum = (of: (drawn: Drawn) => number) => branches.reduce((all, drawn) => all + (drawn ? of(drawn) : 0), 0);
  return { sineA: sum(({ sineA }) => sineA), musicA: sum(({ musicA }) => musicA) };
}

/** Runs from the battery to a device, the nearest to the device first; empty where the way is not known. */
export function wayFromBattery(view: PlanView, device: string): PartOf<'run'>[] {
  const way: PartOf<'run'>[] = [];
  for (let at = device; view.part('battery', at) === undefined; ) {
    const run = view.runsTo(at).at(0);
    if (run?.from === undefined || way.includes(run)) return [];
    way.push(run);
    at = run.from;
  }
  return way;
}

/** A cable on the way and what is lost in it at full sine. */
export type LossyCable = { sineA: number; dropV: number } & (
  | { part: 'run'; cable: PartOf<'run'> }
  | { part: 'ground'; cable: PartOf<'ground'> }
);

export interface Arrives {
  /** Runs, the nearest to the device first, then its ground lead. */
  cables: LossyCable[];
  dropV: number;
  deviceV: number;
  loopOhm: number;
}

/**
 * What reaches an amplifier at full sine: the drop in each run by what that run carries, then the ground lead and the
 * joints. A missing figure is named.
 */
export function arrivesAt(view: PlanView, amplifier: PartOf<'amplifier'>): Arrives | { needs: string } {
  const way = wayFromBattery(view, amplifier.id);
  if (way.length === 0) return { needs: 'its way from the battery' };
  const own = amplifierDraws(view, amplifier);
  if (own === undefined) return { needs: 'its power into what is connected' };
  let dropV = own.sineA * contactOhmDefault;
  let loopOhm = contactOhmDefault;
  const cables: LossyCable[] = [];
  for (const run of way) {
    const [conductor, carried] = [conductorOf(run), runCarries(view, run)];
    if (conductor === undefined || run.lengthM === undefined)
      return { needs: `size, material and length of ${run.id}` };
    if (carried === undefined) return { needs: `what else ${run.id} carries` };
    const ohm = ohmPerMetre(conductor) * run.lengthM;
    loopOhm += ohm;
    dropV += carried.sineA * ohm;
    cables.push({ part: 'run', cable: run, sineA: carried.sineA, dropV: carried.sineA * ohm });
  }
  const ground = view.plan.ground.find(({ of }) => of === amplifier.id);
  const back = ground === undefined ? undefined : conductorOf(ground);
  if (back === undefined || ground?.lengthM === undefined)
    return { needs: 'size, material and length of its ground lead' };
  const groundOhm = ohmPerMetre(back) * ground.lengthM;
  loopOhm += groundOhm;
  dropV += own.sineA * groundOhm;
  cables.push({ part: 'ground', cable: ground, sineA: own.sineA, dropV: own.sineA * groundOhm });
  return { cables, dropV, deviceV: runningV(view) - dropV, loopOhm };
}
