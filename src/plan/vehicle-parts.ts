// The vehicle: its supply, what covers hide, where drivers sit and who listens.
import { z } from 'zod';
import { amperes, idList, metres, millimetres, name, note, partId, range } from './fields.ts';

export const sides = ['left', 'right', 'centre'] as const;
export const rows = ['dash', 'front', 'second', 'third', 'rear', 'boot'] as const;
export const positions = [
  'pillar',
  'dash-top',
  'kick-panel',
  'door',
  'shelf',
  'roof',
  'under-seat',
  'boot-floor',
  'side-panel',
  'other',
] as const;

/** One for the whole plan; its id is `vehicle`. */
export const vehicle = z.strictObject({
  id: z.literal('vehicle'),
  name: name.exactOptional(),
  systemVoltageV: z.union([z.literal(12), z.literal(24)]).exactOptional(),
  /** A 12 V network of a 24 V vehicle through a converter, as 12 V equipment needs it. */
  converterTo12V: z.boolean().exactOptional(),
  alternatorA: amperes.exactOptional(),
  /** Share of the rated current at idle. */
  alternatorIdleShare: range(0.05, 1).exactOptional(),
  /** What the vehicle itself draws. */
  vehicleLoadA: amperes.exactOptional(),
  highVoltage: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

/** What hides work. */
export const cover = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  /** The cover of the vehicle's plan view that it is, by its letter. */
  letter: partId.exactOptional(),
  /** Ids of parts of any kind behind it. */
  hides: idList.exactOptional(),
  /** Marked for closing. */
  closing: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

/** Where a driver sits. */
export const place = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  side: z.enum(sides).exactOptional(),
  row: z.enum(rows).exactOptional(),
  position: z.enum(positions).exactOptional(),
  /** Ids of the covers over it. */
  covers: idList.exactOptional(),
  depthMm: millimetres.exactOptional(),
  /** Whether an airbag sits there or works through it. */
  restraint: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

/** A listening position and how far each place is from the head there. */
export const seat = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  distances: z
    .array(z.strictObject({ place: partId, distanceM: metres }))
    .max(100)
    .exactOptional(),
  note: note.exactOptional(),
});
