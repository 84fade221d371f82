// What is said of one place: side, channel, polarity, and whether that is the plan.
import type { NearTake } from '../measurement/near-field/near-take.ts';
import type { NearPlaceReading } from '../measurement/near-field/read-places.ts';
import { asPlanned } from './input-states.ts';
import { sideGains } from './near-evidence.ts';
import type { NearPlan } from './near-plan.ts';
import type { WeightedLayout } from './weighted-search.ts';

export interface NearPolarity {
  /** Of the whole path from file to recording; 0: cannot say. */
  sign: 1 | -1 | 0;
  confidence: number;
  reason: string;
  /** Against what the plan means for the channel that was found; 0: cannot say. */
  againstPlan: 1 | -1 | 0;
}

export interface PlaceVerdict {
  /** Which side of the file feeds it; null: cannot say. */
  side: 'left' | 'right' | 'both' | 'none' | null;
  polarity: NearPolarity;
  verdict: 'as-planned' | 'differs' | 'cannot-say';
  /** The output that feeds it, most likely; null where none does or nothing tells. */
  channel: string | null;
  /** Outputs and how likely each is, those above one in a hundred. */
  channels: { output: string; likelihood: number }[];
  why: string;
}

/** One way of what a place is fed. */
interface Effect {
  output: number;
  left: number;
  right: number;
}

function effectAt(plan: NearPlan, p: number, layout: WeightedLayout): Effect {
  const output = layout.layout.indexOf(p);
  const state = layout.states[output];
  const { left, right } = sideGains(plan.outputs[output], layout.inputs);
  const factor = state === 'silent' ? 0 : state === 'turned' ? -1 : 1;
  return { output, left: factor * left, right: factor * right };
}

/** Whether two effects sound alike: nothing is nothing, whichever output it does not come from. */
function alike(one: Effect, two: Effect): boolean {
  const silent = ({ left, right }: Effect): boolean => left === 0 && right === 0;
  if (silent(one) || silent(two)) return silent(one) && silent(two);
  return one.output === two.output && one.left === two.left && one.right === two.right;
}

const PLAYS_DB = 9;
const DEAD_DB = 6;
const ONE_SIDE_DB = 8;
const BOTH_DB = 3;

/** Side by what was measured alone. */
function sideHeard({ presence, sideDb }: NearPlaceReading): PlaceVerdict['side'] {
  const most = Math.max(presence.left.levelDb, presence.right.levelDb);
  const mostHidden = Math.max(presence.left.atMostDb, presence.right.atMostDb);
  if (most < DEAD_DB) return mostHidden < PLAYS_DB ? 'none' : null;
  if (most < PLAYS_DB || sideDb === null) return null;
  if (Math.abs(sideDb) >= ONE_SIDE_DB) return sideDb > 0 ? 'left' : 'right';
  return Math.abs(sideDb) <= BOTH_DB ? 'both' : null;
}

const sideWords = {
  left: 'the left side alone',
  right: 'the right side alone',
  both: 'both sides',
  none: 'neither side',
};

function sideOfGains({ left, right }: { left: number; right: number }): keyof typeof sideWords {
  if (left === 0 && right === 0) return 'none';
  if (left === 0) return 'right';
  return right === 0 ? 'left' : 'both';
}

function likelihoods(plan: NearPlan, p: number, layouts: readonly WeightedLayout[]): PlaceVerdict['channels'] {
  const weights = plan.outputs.map(() => 0);
  let total = 0;
  for (const layout of layouts) {
    const weight = 10 ** (-layout.total / 10);
    const effect = effectAt(plan, p, layout);
    if (effect.left !== 0 || effect.right !== 0) weights[effect.output] += weight;
    total += weight;
  }
  return plan.outputs
    .map(({ id }, o) => ({ output: id, likelihood: total > 0 ? weights[o] / total : 0 }))
    .filter(({ likelihood }) => likelihood > 0.01)
    .sort((a, b) => b.likelihood - a.likelihood);
}

const saysNothing: NearPolarity = { sign: 0, confidence: 0, reason: 'there is no usable take', againstPlan: 0 };

function polarityOf(plan: NearPlan, reading: NearPlaceReading, effect: Effect | null, flip: 1 | -1): NearPolarity {
  const told = reading.polarity[reading.side];
  const { sign, confidence, reason } = told;
  if (!effect || sign === 0) return { sign, confidence, reason, againstPlan: 0 };
  const { in1, in2, polarity } = plan.outputs[effect.output];
  // Against the share that the side which was read is meant to have in this output, or either one if it has none.
  const planned = (reading.side === 'left' ? in1 : in2) || in1 || in2;
  const against = Math.sign(sign * planned * polarity * flip) as 1 | -1;
  return { sign, confidence, reason, againstPlan: against };
}

function difference(plan: NearPlan, p: number, effect: Effect, band: string, faint: boolean): string {
  const own = plan.outputs[p];
  const found = plan.outputs[effect.output];
  if (effect.left === 0 && effect.right === 0) return 'It is silent: nothing stands out of what its neighbours give.';
  const parts: string[] = [];
  if (effect.output !== p) parts.push(`its sound is that of ${found.id}, meant for ${found.place}${band}`);
  const side = sideOfGains(effect);
  const planned = sideOfGains({ left: own.in1, right: own.in2 });
  if (side !== planned) parts.push(`${sideWords[side]} feeds it, not ${sideWords[planned]}`);
  const { left, right } = { left: found.in1, right: found.in2 };
  if (effect.left * left < 0 || effect.right * right < 0) parts.push('it moves the other way round than planned');
  if (faint) parts.push('it is so faint here that only the other takes tell');
  const text = parts.join('; ');
  return `${text[0]?.toUpperCase() ?? ''}${text.slice(1)}.`;
}

/** Verdict on a place from its take and from what explains all takes together. */
export function placeVerdict(
  plan: NearPlan,
  p: number,
  take: NearTake,
  reading: NearPlaceReading | null,
  layouts: readonly (WeightedLayout & { flip: 1 | -1 })[],
): PlaceVerdict {
  const nothing = { side: null, polarity: saysNothing, channel: null, channels: [], verdict: 'cannot-say' as const };
  if (!take.usable || !reading) return { ...nothing, why: take.reason ?? 'The take could not be read.' };
  const side = sideHeard(reading);
  const channels = likelihoods(plan, p, layouts);
  const [best] = layouts;
  const effect = best ? effectAt(plan, p, best) : null;
  const polarity = polarityOf(plan, reading, effect, best?.flip ?? 1);
  const channel = channels[0]?.output ?? null;
  const said = { side, polarity, channel, channels };
  if (!effect) return { ...said, verdict: 'cannot-say', why: 'No set of wiring faults explains the takes.' };
  const planned = effectAt(plan, p, {
    inputs: asPlanned,
    layout: plan.outputs.map((_, o) => o),
    states: plan.outputs.map(() => 'sound'),
    faultCost: 0,
    total: 0,
  });
  const effects = layouts.map((layout) => effectAt(plan, p, layout));
  if (!effects.every((other) => alike(other, effect))) {
    return {
      ...said,
      verdict: 'cannot-say',
      why: 'More than one explanation is left for it: see the tests to make next.',
    };
  }
  if (!alike(effect, planned)) {
    const { lowHz, highHz } = { lowHz: reading.own.rangeHz?.low, highHz: reading.own.rangeHz?.high };
    const band = lowHz && highHz ? ` (it stands out from ${Math.round(lowHz)} to ${Math.round(highHz)} Hz)` : '';
    return { ...said, verdict: 'differs', why: difference(plan, p, effect, band, side === 'none') };
  }
  if (side === null) {
    const why =
      reading.sideDb === null || Math.max(reading.presence.left.levelDb, reading.presence.right.levelDb) < PLAYS_DB
        ? 'It hardly stands out of noise and neighbours: hold the microphone closer, or play louder.'
        : `One side is ${Math.abs(reading.sideDb).toFixed(1)} dB over the other: too little for one side, too much for both. Come closer.`;
    return { ...said, verdict: 'cannot-say', why };
  }
  const order = polarity.sign === 0 ? `; its polarity could not be told: ${polarity.reason}` : ', polarity included';
  return { ...said, verdict: 'as-planned', why: `Side and band are those of ${plan.outputs[p].id}${order}.` };
}
