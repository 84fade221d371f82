import { partOfTerminal } from '../../plan/networks.ts';
import type { PlanView } from './plan-view.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** A signal's way between a processor and another device, and whether it is balanced, where that is known. */
interface Connection {
  processor: string;
  other: string;
  balanced: boolean | undefined;
}

type Device = { id: string; groundAt?: string };

/** What is said of a lead counts; else the end that listens, which rejects what the grounds differ by. */
function connections({ plan, part }: PlanView): Connection[] {
  const stated = (a: string, b: string) =>
    plan.lead.find(({ kind, from, to }) => kind === 'signal' && from === a && to === b)?.balanced;
  const inputs = plan.processor.flatMap(({ id: processor, inputs = [] }) =>
    inputs.flatMap(({ id, kind, from, adaptor }) => {
      if (from === undefined) return [];
      const byKind = kind === undefined ? undefined : kind !== 'line';
      const balanced = stated(from, `${processor}/${id}`) ?? (adaptor === 'differential' || byKind);
      return { processor, other: partOfTerminal(from), balanced };
    }),
  );
  const outputs = plan.channel.flatMap(({ output, amplifier, balancedInput }) => {
    if (output === undefined || amplifier === undefined) return [];
    const processor = part('processor', partOfTerminal(output));
    const sends = processor?.outputs?.find(({ id }) => `${processor.id}/${id}` === output)?.balanced;
    const balanced = stated(output, amplifier) ?? balancedInput ?? sends;
    return processor === undefined ? [] : { processor: processor.id, other: partOfTerminal(amplifier), balanced };
  });
  return [...inputs, ...outputs];
}

/** The body point of a device, and how far it is from the processor's where that is known. */
function groundOf({ plan }: PlanView, { id, groundAt }: Device) {
  const lead = plan.ground.find(({ of }) => of === id);
  return { point: lead?.point ?? groundAt, fromProcessorM: lead?.fromProcessorM };
}

/** E-12. */
export const groundsApart: Rule = {
  id: 'E-12',
  code: 'grounds-apart',
  why: 'Current of the amplifiers in the body between two grounds stands in series with an unbalanced signal.',
  check(view, { groundDistanceMaxM }) {
    const { plan } = view;
    return plan.processor.flatMap((processor) => {
      const place = `processor ${processor.id}`;
      const ways = connections(view).filter(({ processor: id, balanced }) => id === processor.id && balanced !== true);
      const devices: Device[] = [...plan.source, ...plan.amplifier];
      const own = groundOf(view, processor).point;
      if (own === undefined) return ways.length === 0 ? [] : [{ place, needs: 'where it is grounded' }];
      const far: { id: string; point: string; apartM: number }[] = [];
      const unknown: { place: string; needs: string }[] = [];
      for (const device of devices) {
        const between = ways.filter(({ other }) => other === device.id);
        const { point, fromProcessorM } = groundOf(view, device);
        if (between.length === 0 || (point !== undefined && point === own)) continue;
        if (fromProcessorM !== undefined && fromProcessorM <= groundDistanceMaxM) continue;
        const tell = (needs: string) => unknown.push({ place: `${place}, ${device.id}`, needs });
        if (point === undefined) tell(`where ${device.id} is grounded`);
        else if (fromProcessorM === undefined) tell(`how far ${point} is from ${own}`);
        else if (between.every(({ balanced }) => balanced === undefined)) tell('whether its signal lead is balanced');
        else far.push({ id: device.id, point, apartM: fromProcessorM });
      }
      if (far.length === 0) return unknown;
      const points = new Set([own, ...far.map(({ point }) => point)]).size;
      const furthestM = Math.max(...far.map(({ apartM }) => apartM));
      const wrong = {
        severity: 'note' as const,
        place,
        message: `Signal grounds are at ${points} places, up to ${said(furthestM)} m apart, with unbalanced leads: whine risk. One point or balanced leads.`,
        values: { points, furthestM, devices: far.map(({ id }) => id).join(' ') },
        clears: 'Ground them at one point of the body, or use balanced leads.',
      };
      return [wrong, ...unknown];
    });
  },
};
