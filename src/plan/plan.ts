// The plan: what the car should be, as lists of parts with short ids that speak of each other.
import { z } from 'zod';
import { driver, enclosure } from './driver-parts.ts';
import { note } from './fields.ts';
import { holdPoint, lead, reading } from './lead-parts.ts';
import { battery, block, fuse, ground, run } from './power-parts.ts';
import { amplifier, channel, load, processor, source } from './signal-parts.ts';
import { cover, place, seat, vehicle } from './vehicle-parts.ts';

/** The form of each kind of part. */
export const partSchemas = {
  vehicle,
  cover,
  place,
  seat,
  source,
  processor,
  amplifier,
  channel,
  load,
  driver,
  enclosure,
  battery,
  block,
  run,
  fuse,
  ground,
  lead,
  reading,
  holdPoint,
} as const;

export type PartKind = keyof typeof partSchemas;
export type PartOf<Kind extends PartKind> = z.infer<(typeof partSchemas)[Kind]>;
export type Part = PartOf<PartKind>;

export const partKinds = Object.keys(partSchemas) as PartKind[];

/** Most parts of one kind; a car has far fewer. */
const partsMax = 300;

/**
 * Parts of one kind. Ids are unique in the whole plan, so that a place in a finding names one thing; that is checked
 * over all lists.
 */
const list = <Schema extends z.ZodType>(schema: Schema) => z.array(schema).max(partsMax).default([]);

const lists = {
  vehicle: z.array(vehicle).max(1).default([]),
  cover: list(cover),
  place: list(place),
  seat: list(seat),
  source: list(source),
  processor: list(processor),
  amplifier: list(amplifier),
  channel: list(channel),
  load: list(load),
  driver: list(driver),
  enclosure: list(enclosure),
  battery: list(battery),
  block: list(block),
  run: list(run),
  fuse: list(fuse),
  ground: list(ground),
  lead: list(lead),
  reading: list(reading),
  holdPoint: list(holdPoint),
};

/** The parts alone, each kind a list; kinds that are absent are empty. */
export const partsSchema = z.strictObject(lists);

/** A plan file: `kickpanel.plan/1`. */
export const planSchema = z
  .strictObject({ schema: z.literal('kickpanel.plan/1'), note: note.exactOptional(), ...lists })
  .superRefine((plan, context) => {
    const seen = new Map<string, PartKind>();
    for (const kind of partKinds) {
      plan[kind].forEach(({ id }, index) => {
        const before = seen.get(id);
        if (before !== undefined) {
          const message = `the id ${id} is taken already, by the ${before}`;
          context.addIssue({ code: 'custom', path: [kind, index, 'id'], message, input: id });
        }
        seen.set(id, kind);
      });
    }
  });

/** Parts by kind. The order within a list has no meaning. */
export type Plan = z.infer<typeof partsSchema>;

/** A plan of nothing. */
export function emptyPlan(): Plan {
  return partsSchema.parse({});
}

/** The parts of a plan, each with its kind. */
export function* partsOf(plan: Plan): Generator<{ kind: PartKind; part: Part }> {
  for (const kind of partKinds) for (const part of plan[kind]) yield { kind, part };
}

/** The kind of the part that has this id, or null. */
export function kindOf(plan: Plan, id: string): PartKind | null {
  return partKinds.find((kind) => plan[kind].some((part) => part.id === id)) ?? null;
}
