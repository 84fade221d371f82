// The channels of a job's plan as a channel walk takes them: outputs, what they play, and the places they are meant for.
import { driversIn } from '../plan/networks.ts';
import type { PartOf, Plan } from '../plan/plan.ts';
import type { WalkPlan } from './walk-request.ts';

/** Where a channel of the plan should be heard. */
export interface WalkedChannel {
  /** Of the channel: its output is called so in the walk. */
  id: string;
  name: string;
  /** Processor output and amplifier channel, `DSP/1` and `A/1`. */
  output: string;
  amplifier: string;
  /** Of the place; the id of the driver where none is planned. */
  place: string;
  placeName: string;
  drivers: PartOf<'driver'>[];
  /** Labels of the leads on its way. */
  speakerLead: string;
  signalLead: string;
  /** Which side of the source it plays. */
  side: 'left' | 'right' | 'both';
}

export interface WalkOfJob {
  plan: WalkPlan;
  channels: WalkedChannel[];
  /** Channels that cannot be walked, each with what the plan does not say. */
  left: { id: string; needs: string }[];
}

const sideOf = (inputs: readonly string[]): WalkedChannel['side'] => {
  const left = inputs.some((input) => /left/i.test(input));
  const right = inputs.some((input) => /right/i.test(input));
  return left === right ? 'both' : left ? 'left' : 'right';
};

const gainsOf = { left: [1, 0], right: [0, 1], both: [0.5, 0.5] } as const;

/**
 * The walk's plan of a job's plan. Several drivers on one amplifier channel are heard as one: at the place of the first.
 *
 * @returns channels in the order of the plan; those that are spare are left out, those not wholly planned are listed
 */
export function walkOfPlan(plan: Plan): WalkOfJob {
  const channels: WalkedChannel[] = [];
  const left: WalkOfJob['left'] = [];
  const taken = new Set<string>();
  for (const channel of plan.channel) {
    if (channel.spare === true) continue;
    const { id, output, amplifier, inputs = [] } = channel;
    const load = plan.load.find((known) => known.amplifier !== undefined && known.amplifier === amplifier);
    const names = load?.network === undefined ? [] : driversIn(load.network);
    const drivers = plan.driver.filter(({ id: driver }) => names.includes(driver));
    const place = plan.place.find((known) => known.id === drivers[0]?.place);
    const at = place?.id ?? drivers[0]?.id;
    if (output === undefined || amplifier === undefined)
      left.push({ id, needs: 'its output and its amplifier channel' });
    else if (at === undefined) left.push({ id, needs: `the driver behind ${amplifier}` });
    else if (taken.has(`place ${at}`) || taken.has(`amplifier ${amplifier}`))
      left.push({ id, needs: `a place and an amplifier channel of its own: ${at} and ${amplifier} are taken` });
    else {
      taken.add(`place ${at}`).add(`amplifier ${amplifier}`);
      const leadFrom = (from: string) => plan.lead.find((lead) => lead.from === from)?.id;
      channels.push({
        id,
        name: channel.name ?? id,
        output,
        amplifier,
        place: at,
        placeName: place?.name ?? drivers[0].name ?? at,
        drivers,
        speakerLead: leadFrom(amplifier) ?? `the speaker lead of ${amplifier}`,
        signalLead: leadFrom(output) ?? `the signal lead of ${amplifier}`,
        side: sideOf(inputs),
      });
    }
  }
  const outputs = channels.map(({ id, amplifier, place, side }) => {
    const [in1, in2] = gainsOf[side];
    return { id, in1, in2, amp: amplifier, place };
  });
  const reversibleInputs = plan.processor.some(({ inputs = [] }) =>
    inputs.some(({ kind }) => kind === 'balanced' || kind === 'speaker'),
  );
  return { plan: { outputs, reversibleInputs }, channels, left };
}
