// What the loom screen opens with, and the cautions that stand where the work is.
import { type NumberStyle, significantText } from '../../charts/number-words.ts';
import { countWords } from '../shop/job-words.ts';
import type { FuseRow } from './power-model.ts';

export interface LoomState {
  rows: readonly FuseRow[];
  leads: number;
  /** Leads whose reading is not there yet. */
  unread: number;
  /** Leads whose reading does not fit. */
  unfit: readonly string[];
  stops: number;
}

export function loomSentence({ rows, leads, unread, unfit, stops }: LoomState, style: NumberStyle): string {
  if (rows.length === 0 && leads === 0) return 'There is no loom yet. The plan gives it runs and leads.';
  const over = rows.find(({ verdict }) => verdict === 'over');
  if (over?.fuse?.ratedA !== undefined && over.cableA !== undefined) {
    const [fuseA, cableA] = [over.fuse.ratedA, over.cableA].map((value) => significantText(value, 3, style));
    return `${over.fuse.id} is a ${fuseA} A fuse on a ${cableA} A cable. Change it before the battery goes back on.`;
  }
  if (unfit.length > 0) return `${unfit[0]} does not read what was planned. Find out why before its cover goes on.`;
  if (stops > 0) return `${countWords(stops, 'thing', 'things')} in the loom must change before power goes on.`;
  const open = rows.filter(({ verdict }) => verdict === 'unknown').length;
  if (open > 0) return `${countWords(open, 'fuse waits', 'fuses wait')} for a size or a rating.`;
  if (unread > 0) return `Every fuse holds. ${countWords(unread, 'lead waits', 'leads wait')} for the meter.`;
  return 'Every fuse holds, and every lead reads what was planned.';
}

export interface Caution {
  id: string;
  text: string;
}

/** Must be ticked by a named person; the journal keeps who and when. */
export const gates: readonly (Caution & { done: string })[] = [
  {
    id: 'C-01',
    text: 'Battery negative off and insulated before any power wiring. Radio codes, window limits and alarms may lose power: ask whether the car wants a memory keeper.',
    done: 'It is off and insulated',
  },
  {
    id: 'C-02',
    text: 'The main fuse stays out until every run has been checked for shorts to body. Fit it last, with everything switched off.',
    done: 'The main fuse is out',
  },
];

export const highVoltageGate: Caution & { done: string } = {
  id: 'C-11',
  text: "Orange cables carry hundreds of volts. Do not open, tap or route beside them. Work on a hybrid or electric car only after the maker's shutdown procedure, by a person trained for it.",
  done: 'A trained person shut it down',
};

export const powerCautions: readonly Caution[] = [
  {
    id: 'C-03',
    text: 'Fuse within 45 cm of cable from the battery, and never larger than the cable behind it may carry.',
  },
  {
    id: 'C-04',
    text: 'A spanner between battery plus and body melts. Take off rings and watches; cover the terminal.',
  },
  {
    id: 'C-06',
    text: 'Route away from fuel and brake lines, steering, pedals, seat rails and hot exhaust. Grommet at every metal edge; fix every 30 cm; slack at hinges.',
  },
  { id: 'C-07', text: 'Use only relays, connectors and cable meant for vehicles. No twisted and taped joints.' },
];

export const leadCautions: readonly Caution[] = [
  {
    id: 'C-05',
    text: 'Find out what is behind a panel before drilling or driving a screw: look from both sides, use a depth stop, keep 10 cm from fuel lines, brake pipes, fuel tank, looms and airbag parts.',
  },
  {
    id: 'C-10',
    text: 'Airbag parts, often with yellow connectors: do not measure, cut, tap or move them. Nothing is fixed to them, over them or in their path.',
  },
  {
    id: 'C-33',
    text: 'Outputs of full-bridge amplifiers carry dc: no speaker lead may touch body metal or another lead.',
  },
];
