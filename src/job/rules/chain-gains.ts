// How the levels of a processor channel and its amplifier fit.
import { type GainStructure, gainStructure } from '../../electrical/gains/gain-structure.ts';
import { partOfTerminal } from '../../plan/networks.ts';
import type { PartOf } from '../../plan/plan.ts';
import { laneDrive } from './loads.ts';
import type { Lane, PlanView } from './plan-view.ts';

const headroomAssumedDb = 6;

type Gains = { set: GainStructure; processor: PartOf<'processor'>; amplifier: PartOf<'amplifier'> };

/** What the drivers of a channel stand together, V: by what is set for one alone, else by the heat of the weakest. */
export function driversLimitV({ drivers }: Lane, loadOhm: number): number | undefined {
  if (drivers.length === 1 && drivers[0].targetV !== undefined) return drivers[0].targetV;
  const heatW = drivers.flatMap(({ thermalW }) => thermalW ?? []);
  if (heatW.length < drivers.length || heatW.length === 0) return undefined;
  return Math.sqrt(drivers.length * Math.min(...heatW) * loadOhm);
}

/**
 * The settings that let all of a channel clip together. What the source does not fill of the input, the processor makes up.
 *
 * @param limits  `full-power` for what the amplifier can give, `driver` for what its drivers stand too
 * @param input   clean volts of the source and what the input takes; a source that fills it where absent
 * @returns what is not known; null where the channel is not wired that far
 */
export function chainGains(
  { part }: PlanView,
  lane: Lane,
  channel: PartOf<'channel'>,
  limits: 'full-power' | 'driver',
  input: { sourceCleanV: number; inputMaxV: number } = { sourceCleanV: 1, inputMaxV: 1 },
): Gains | { needs: string } | null {
  const processor = part('processor', partOfTerminal(channel.output ?? ''));
  const output = processor?.outputs?.find(({ id }) => `${processor.id}/${id}` === channel.output);
  const { amplifier } = lane;
  if (processor === undefined || amplifier === undefined) return null;
  const { sensitivityMinV: ampSensMinV, sensitivityMaxV } = amplifier;
  if (output?.maxV === undefined) return { needs: `how many volts ${channel.output} gives` };
  if (ampSensMinV === undefined) return { needs: `the sensitivity of ${amplifier.id}` };
  const drive = laneDrive(lane);
  if (drive === undefined) return { needs: 'the power of its amplifier into its load' };
  let driverLimitV: number | undefined;
  if (limits === 'driver') {
    if (sensitivityMaxV === undefined) return { needs: `the sensitivity of ${amplifier.id} with its gain down` };
    driverLimitV = driversLimitV(lane, drive.ohm);
  }
  const set = gainStructure({
    sourceCleanV: input.sourceCleanV,
    procInMaxV: input.inputMaxV,
    procInRangesV: [input.inputMaxV],
    procOutMaxV: output.maxV,
    headroomDb: processor.headroomDb ?? headroomAssumedDb,
    ampSensMinV,
    ampSensMaxV: Math.max(ampSensMinV, sensitivityMaxV ?? ampSensMinV),
    ampRatedW: drive.watt,
    loadOhm: drive.ohm,
    driverLimitV,
    makeUpDigital: true,
  });
  return set.ok ? { set: set.value, processor, amplifier } : { needs: `a sensitivity of ${amplifier.id} that can be` };
}
