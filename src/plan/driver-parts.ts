// Drivers and the boxes they sit in: what their makers state, or what was measured.
import { z } from 'zod';
import { hertz, idList, millimetres, name, note, partId, range, volts, watts } from './fields.ts';

export const driverKinds = ['tweeter', 'mid', 'midbass', 'full-range', 'sub'] as const;

export const driver = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  make: name.exactOptional(),
  model: name.exactOptional(),
  kind: z.enum(driverKinds).exactOptional(),
  place: partId.exactOptional(),
  enclosure: partId.exactOptional(),
  /** One or two windings; each has `coilOhm` nominal. */
  coils: z.number().int().min(1).max(4).exactOptional(),
  coilOhm: range(0.1, 100).exactOptional(),
  /** What was ordered, if the sheet says something else. */
  orderedCoilOhm: range(0.1, 100).exactOptional(),
  /** Of one coil, direct current. */
  reOhm: range(0.1, 100).exactOptional(),
  fsHz: range(1, 20_000).exactOptional(),
  qms: range(0.01, 100).exactOptional(),
  qes: range(0.01, 100).exactOptional(),
  qts: range(0.01, 100).exactOptional(),
  vasL: range(0.0001, 5000).exactOptional(),
  sdCm2: range(0.1, 10_000).exactOptional(),
  mmsG: range(0.01, 10_000).exactOptional(),
  cmsMmPerN: range(0.0001, 100).exactOptional(),
  blTm: range(0.01, 200).exactOptional(),
  leMh: range(0, 100).exactOptional(),
  /** One way, peak. */
  xmaxMm: range(0.01, 200).exactOptional(),
  xmechMm: range(0.01, 300).exactOptional(),
  /** Continuous power that it stands. */
  thermalW: watts.exactOptional(),
  sensitivityDb: range(50, 130).exactOptional(),
  sensitivityAt: z.enum(['1W', '2.83V']).exactOptional(),
  /** Lowest crossover that its maker states. */
  minimumHighPassHz: hertz.exactOptional(),
  depthMm: millimetres.exactOptional(),
  coneDiameterMm: millimetres.exactOptional(),
  /** Of the hole behind the magnet; 0 where there is none. */
  ventDiameterMm: millimetres.exactOptional(),
  breakupHz: hertz.exactOptional(),
  gapUnderConeMm: millimetres.exactOptional(),
  facing: z.enum(['listener', 'up', 'down', 'side']).exactOptional(),
  /** What it is made for. */
  intendedUse: z.enum(['low-power', 'general', 'high-power']).exactOptional(),
  massKg: range(0.01, 200).exactOptional(),
  targetV: volts.exactOptional(),
  note: note.exactOptional(),
});

export const enclosure = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  kind: z.enum(['infinite-baffle', 'sealed', 'vented', 'bandpass4']).exactOptional(),
  /** Net of drivers, ports and bracing. */
  netL: range(0.01, 5000).exactOptional(),
  /** Net, of the sealed chamber behind the cone; band-pass boxes only. */
  rearL: range(0.01, 5000).exactOptional(),
  /** How much larger damping fill makes the air: 1.4, where it takes all its heat, is the most. */
  fillGain: range(1, 1.4).exactOptional(),
  tuningHz: hertz.exactOptional(),
  /** Of all ports together. */
  portAreaCm2: range(0.1, 10_000).exactOptional(),
  place: partId.exactOptional(),
  covers: idList.exactOptional(),
  massKg: range(0.1, 500).exactOptional(),
  /** Thickness of its board. */
  panelMm: range(1, 100).exactOptional(),
  /** Fixings that go into structure, not into trim. */
  structuralFixings: z.number().int().min(0).max(50).exactOptional(),
  /** What the sheet of the driver asks for, for one driver. */
  sheetNetL: range(0.01, 5000).exactOptional(),
  note: note.exactOptional(),
});
