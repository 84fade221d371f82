// Power: batteries, runs of cable, the fuses in them, where they branch, and the way back to body metal.
import { z } from 'zod';
import { amperes, areaMm2, idList, metres, name, note, partId, range, volts } from './fields.ts';

export const materials = [
  'copper',
  'copper-clad-aluminium-15',
  'copper-clad-aluminium-10',
  'aluminium',
  'unknown',
] as const;
/** What a cable may come too near to. */
export const dangers = ['fuel', 'brake', 'steering', 'airbag', 'high-voltage'] as const;

const cable = {
  areaMm2: areaMm2.exactOptional(),
  /** American gauge: 4, 8; 0 is 1/0, -1 is 2/0. Used where no area is given. */
  gauge: z.number().int().min(-3).max(40).exactOptional(),
  material: z.enum(materials).exactOptional(),
  lengthM: metres.exactOptional(),
};

const route = {
  /** Ids of the covers that it runs under. */
  under: idList.exactOptional(),
  /** What it comes nearer to than 0.1 m; an empty list says that somebody looked. */
  near: z.array(z.enum(dangers)).max(5).exactOptional(),
};

export const battery = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  chemistry: z.enum(['flooded', 'agm', 'lithium']).exactOptional(),
  capacityAh: range(0.1, 2000).exactOptional(),
  voltageV: volts.exactOptional(),
  /** A load taken from the middle of a pair. */
  centreTapUsed: z.boolean().exactOptional(),
  place: name.exactOptional(),
  note: note.exactOptional(),
});

/** A distribution block. */
export const block = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  place: name.exactOptional(),
  note: note.exactOptional(),
});

/** One power cable from `from` (nearer to the battery) to `to`: a battery, a block or a device. */
export const run = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  from: partId.exactOptional(),
  to: partId.exactOptional(),
  ...cable,
  ...route,
  insulationC: range(60, 300).exactOptional(),
  ambientC: range(-40, 200).exactOptional(),
  /** Conductors loaded together in one bundle. */
  bundled: z.number().int().min(1).max(100).exactOptional(),
  covering: z.enum(['open', 'under-trim', 'in-foam']).exactOptional(),
  /** What the cable's maker allows; it replaces the reckoned figure. */
  allowedA: amperes.exactOptional(),
  sizeFactor: range(0.1, 1.2).exactOptional(),
  shortTested: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

export const fuseFamilies = [
  'blade-mini',
  'blade',
  'blade-large',
  'strip-30',
  'strip-51',
  'flat-link',
  'glass-6x32',
] as const;

/** A fuse in a run, `atM` along it from its feeding end. */
export const fuse = z.strictObject({
  id: partId,
  run: partId.exactOptional(),
  atM: metres.exactOptional(),
  ratedA: range(0.1, 2000).exactOptional(),
  family: z.enum(fuseFamilies).exactOptional(),
  fitted: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

/** The lead from a device's minus to body metal. */
export const ground = z.strictObject({
  id: partId,
  of: partId.exactOptional(),
  ...cable,
  point: name.exactOptional(),
  /** How far its body point lies from the processor's. */
  fromProcessorM: metres.exactOptional(),
  note: note.exactOptional(),
});

export { cable as cableFields, route as routeFields };
