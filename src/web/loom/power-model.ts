// The power side of a plan as the loom screen shows it: the river, and a row for each fuse.
import type { RiverEdge, RiverNode } from '../../charts/loom/power-river.ts';
import { fixedText, type NumberStyle, significantText } from '../../charts/number-words.ts';
import { ohmPerMetre } from '../../electrical/conductor.ts';
import { allowedA, conductorOf, markedAreaMm2 } from '../../job/rules/cables.ts';
import { arrivesAt, runCarries } from '../../job/rules/currents.ts';
import type { PlanView } from '../../job/rules/plan-view.ts';
import type { Part, PartKind, PartOf } from '../../plan/plan.ts';
import { cableSizeText } from '../part-editor/cable-size.ts';
import type { PlanFinding } from '../plan-lanes/plan-finding.ts';
import { stands } from '../plan-lanes/plan-words.ts';

export type FuseVerdict = 'holds' | 'over' | 'opens' | 'unknown';

export interface FuseRow {
  run: PartOf<'run'>;
  /** Absent where the run has none. */
  fuse?: PartOf<'fuse'>;
  name: string;
  loadA?: number;
  cableA?: number;
  verdict: FuseVerdict;
  missing: string;
}

const deviceKinds: PartKind[] = ['battery', 'block', 'amplifier', 'processor', 'source'];

function deviceName(view: PlanView, id: string | undefined): string {
  if (id === undefined) return 'nothing yet';
  const kind = deviceKinds.find((known) => (view.plan[known] as Part[]).some((part) => part.id === id));
  if (kind === 'battery') return view.plan.battery.length > 1 ? `battery ${id}` : 'battery';
  if (kind === 'block') return view.plan.block.length > 1 ? `block ${id}` : 'block';
  if (kind === 'amplifier') return `amp ${id}`;
  if (kind === 'processor') return view.plan.processor.length > 1 ? `processor ${id}` : 'processor';
  return kind === undefined ? id : `${kind} ${id}`;
}

const title = (words: string) => words[0].toUpperCase() + words.slice(1);

/** What lies behind each fuse: what flows in music, what it is rated, what the cable behind it may carry. */
export function fuseRows(view: PlanView, findings: readonly PlanFinding[]): FuseRow[] {
  const faulty = (rules: string[], place: string) =>
    findings.some(({ id, severity, place: at }) => rules.includes(id) && at === place && severity !== 'note');
  return view.plan.run.flatMap((run): FuseRow[] => {
    const loadA = runCarries(view, run)?.musicA;
    const cableA = allowedA(run);
    const name = title(`${deviceName(view, run.from)} to ${deviceName(view, run.to)}`);
    const known = { run, name, ...(loadA === undefined ? {} : { loadA }), ...(cableA === undefined ? {} : { cableA }) };
    const fuses = view.fusesOf(run.id);
    if (fuses.length === 0) return [{ ...known, verdict: 'unknown', missing: 'no fuse planned' }];
    return fuses.map((fuse) => {
      const place = `fuse ${fuse.id}`;
      const missing = [
        ...(fuse.ratedA === undefined ? ['rating'] : []),
        ...(cableA === undefined ? ['cable'] : []),
        ...(loadA === undefined ? ['load'] : []),
      ];
      const verdict = faulty(['E-01'], place)
        ? 'over'
        : faulty(['E-06'], place)
          ? 'opens'
          : fuse.ratedA === undefined || cableA === undefined
            ? 'unknown'
            : 'holds';
      return { ...known, fuse, verdict, missing: missing.length === 0 ? '' : `${missing.join(', ')} not known` };
    });
  });
}

/** What is lost in a run at full sine, V; undefined where it is not known. */
export function runDropV(view: PlanView, run: PartOf<'run'>): { dropV: number; sineA: number } | undefined {
  const [conductor, carried] = [conductorOf(run), runCarries(view, run)];
  if (conductor === undefined || run.lengthM === undefined || carried === undefined) return undefined;
  return { dropV: carried.sineA * ohmPerMetre(conductor) * run.lengthM, sineA: carried.sineA };
}

/** Nodes and runs of the river; an amplifier shows the voltage that reaches it at full sine. */
export function riverOf(view: PlanView, findings: readonly PlanFinding[], style: NumberStyle) {
  const standing = findings.filter((found) => found.severity === 'stop' && stands(found));
  const ends = new Set(view.plan.run.flatMap(({ from, to }) => [from, to]));
  const nodes = deviceKinds.flatMap((kind) =>
    (view.plan[kind] as Part[])
      .filter(({ id }) => ends.has(id))
      .map((part): RiverNode => {
        const { id } = part;
        const name = title(deviceName(view, id));
        if (kind === 'battery') {
          const { voltageV } = part as PartOf<'battery'>;
          return { id, name, small: voltageV === undefined ? '' : `${fixedText(voltageV, 1, style)} V` };
        }
        if (kind === 'block') return { id, name, small: (part as PartOf<'block'>).place ?? '' };
        if (kind !== 'amplifier') return { id, name, small: '' };
        const arrives = arrivesAt(view, part as PartOf<'amplifier'>);
        return { id, name, small: 'needs' in arrives ? '' : `${fixedText(arrives.deviceV, 2, style)} V` };
      }),
  );
  const edges = view.plan.run.map((run): RiverEdge => {
    const areaMm2 = markedAreaMm2(run);
    const fuses = view.fusesOf(run.id).map(({ id }) => ({
      id,
      bad: standing.some(({ place }) => place === `fuse ${id}`),
    }));
    return {
      id: run.id,
      from: run.from ?? '',
      to: run.to ?? '',
      ...(areaMm2 === undefined ? {} : { areaMm2 }),
      label: areaMm2 === undefined ? run.id : `${run.id}  ${cableSizeText(run, style)}`,
      fuses,
      bad: fuses.some(({ bad }) => bad) || standing.some(({ place }) => place === `run ${run.id}`),
    };
  });
  return { nodes, edges };
}

/** Runs as sentences: for whoever cannot see the river, and as its table. */
export function runWords(view: PlanView, run: PartOf<'run'>, style: NumberStyle): string {
  const size = cableSizeText(run, style) || 'size not known';
  const length = run.lengthM === undefined ? 'length not known' : `${significantText(run.lengthM, 3, style)} m`;
  const lost = runDropV(view, run);
  const loses =
    lost === undefined
      ? ''
      : ` At full tone ${significantText(lost.sineA, 3, style)} A lose ${significantText(lost.dropV, 2, style)} V in it.`;
  return `${run.id}, ${deviceName(view, run.from)} to ${deviceName(view, run.to)}: ${size}, ${length}.${loses}`;
}
