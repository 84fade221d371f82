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

/** Taken off, set in place, or set and fastened. */
export const coverStates = ['off', 'resting', 'fastened'] as const;

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
  /** Air of the cabin; with a closed boot, that of the cabin alone. */
  cabinVolumeM3: range(0.5, 50).exactOptional(),
  /** Where leaks take over from the gain of a closed cabin. */
  cabinLeakHz: range(0, 100).exactOptional(),
  /** How much of the ideal gain yielding panels leave. */
  cabinFullness: range(0.05, 1).exactOptional(),
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
  /** How it is to be while takes are recorded. */
  duringTakes: z.enum(coverStates).exactOptional(),
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
  /** Free depth behind the panel, glass up. */
  depthMm: millimetres.exactOptional(),
  /** How much of that depth the glass takes when it is down; 0 where there is none. */
  glassTravelMm: millimetres.exactOptional(),
  /** Whether an airbag sits there or works through it. */
  restraint: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

/** A listening position: how far each place is from the head there, what is asked of it, and how long it stays loud. */
export const seat = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  distances: z
    .array(z.strictObject({ place: partId, distanceM: metres }))
    .max(100)
    .exactOptional(),
  /** Loudest bass that is asked for here, dB SPL. */
  targetLevelDb: range(40, 160).exactOptional(),
  /** Planned loud time of whoever sits here in one day, at this level at the ear, protection counted. */
  pushMinutes: range(0, 1440).exactOptional(),
  pushLevelDba: range(30, 150).exactOptional(),
  /** Share of the day's noise that the same person has heard elsewhere. */
  heardBeforePct: range(0, 10_000).exactOptional(),
  note: note.exactOptional(),
});
