// Leads with a label at both ends, what a meter read, and what must be proven before a cover hides it.
import { z } from 'zod';
import { amperes, idList, name, note, partId, range, terminal } from './fields.ts';
import { cableFields, routeFields } from './power-parts.ts';

export const leadKinds = ['speaker', 'signal', 'turn-on'] as const;

export const lead = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  kind: z.enum(leadKinds).exactOptional(),
  /** Terminals, `A/1` and `D1/1`, or parts. */
  from: z.union([terminal, partId]).exactOptional(),
  to: z.union([terminal, partId]).exactOptional(),
  colour: name.exactOptional(),
  ...cableFields,
  ...routeFields,
  balanced: z.boolean().exactOptional(),
  /** How far it runs nearer than 0.2 m to a power run. */
  besidePowerM: range(0, 100).exactOptional(),
  note: note.exactOptional(),
});

export const quantities = [
  /** Of a lead or a driver, ohm. */
  'resistance',
  /** From a lead to body metal, ohm. */
  'to-body',
  /** From a device's minus to battery minus while current flows, V. */
  'ground-drop',
  /** Of a battery, an hour after driving, V. */
  'resting-voltage',
] as const;

/** What a meter said of a part. */
export const reading = z.strictObject({
  id: partId,
  of: partId,
  quantity: z.enum(quantities),
  value: z.union([range(0, 1e9), z.literal('open')]).exactOptional(),
  /** Current that flowed meanwhile. */
  currentA: amperes.exactOptional(),
  /** What the meter shows with its probes together. */
  probesOhm: range(0, 10).exactOptional(),
  temperatureC: range(-40, 200).exactOptional(),
  /** Drivers that were unplugged for it. */
  without: idList.exactOptional(),
  note: note.exactOptional(),
});

/** Something that must be proven, and the covers that hide it. */
export const holdPoint = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  /** The part that it is about. */
  of: partId.exactOptional(),
  behind: idList.exactOptional(),
  /** Such as "reads 3.6 ohm at A1"; absent while it is open. */
  proof: name.exactOptional(),
  note: note.exactOptional(),
});
