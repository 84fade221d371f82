// Whether a hands-free call sends back what the far end said: how late, and how far under it.
import type { Recording } from '../../signals/recording.ts';
import { HOP_S, speechEnvelope } from './speech-envelope.ts';

export interface CallEcho {
  status: 'echo' | 'no-echo' | 'cannot-say';
  /** One sentence with its numbers. */
  says: string;
  /** From the far end's word to its echo, networks included, ms; null where no echo is found. */
  delayMs: number | null;
  /** Echo under what was said, dB; where no echo is found it is at least this. Null where nothing can be said. */
  lossDb: number | null;
  /** How alike the two rise and fall at that delay, -1 .. 1. */
  likeness: number | null;
  /** Time in which the far end spoke, s. */
  spokenS: number;
}

/** What a hands-free set in a car owes: weighted terminal coupling loss (ITU-T P.1100). */
export const ECHO_LOSS_DB = 46;

/** The far end speaks where it is within this of its loudest, dB. */
const SPOKEN_DB = 30;
const LEAST_SPOKEN_S = 4;
/** Echoes later than this belong to no call. */
const LONGEST_S = 1.5;
/** A cable between the recorders may turn cause and effect by this. */
const EARLIEST_S = -0.02;
/** Likeness of two envelopes that chance does not give. */
const LEAST_LIKENESS = 0.25;
const OVER_CHANCE = 6;
/** Delays this near to the best are like it because syllables are long, s. */
const BESIDE_S = 0.2;

const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
const ascending = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
const db = (power: number): number => 10 * Math.log10(Math.max(power, 1e-30));

/** Correlation of amplitudes at a delay of `lag` hops. */
function likenessAt(sent: Float64Array, received: Float64Array, lag: number): number {
  const from = Math.max(0, -lag);
  const to = Math.min(sent.length, received.length - lag);
  if (to - from < LEAST_SPOKEN_S / HOP_S) return 0;
  let [s, r, ss, rr, sr] = [0, 0, 0, 0, 0];
  for (let n = from; n < to; n++) {
    const [a, b] = [sent[n], received[n + lag]];
    s += a;
    r += b;
    ss += a * a;
    rr += b * b;
    sr += a * b;
  }
  const count = to - from;
  const scale = Math.sqrt((ss - (s * s) / count) * (rr - (r * r) / count));
  return scale > 0 ? (sr - (s * r) / count) / scale : 0;
}

interface Found {
  lag: number;
  likeness: number;
  chance: number;
}

/** The delay at which the two are most alike, and how alike they are elsewhere by chance. */
function mostAlike(sent: Float64Array, received: Float64Array): Found {
  const first = Math.round(EARLIEST_S / HOP_S);
  const likeness = Array.from({ length: Math.round(LONGEST_S / HOP_S) - first + 1 }, (_, i) =>
    likenessAt(sent, received, first + i),
  );
  const best = likeness.indexOf(Math.max(...likeness));
  const others = likeness.filter((_, i) => Math.abs(i - best) * HOP_S > BESIDE_S);
  const sorted = ascending(others);
  const middle = quantile(sorted, 0.5);
  const spread = quantile(ascending(others.map((value) => Math.abs(value - middle))), 0.5);
  return { lag: first + best, likeness: likeness[best], chance: middle + OVER_CHANCE * spread };
}

/**
 * Holds what the far end received against what it sent.
 *
 * Envelopes are compared, not waves: the speech coders of telephones keep the first and not the second. Levels count as
 * recorded, so both are to be taken with one gain, or the difference of gains given.
 *
 * @param sent      what the far end said, and `received` what came back: one clock, begun at one time
 * @param gainDb    what the recording of `received` was amplified more than that of `sent`, dB
 * Source: own method; the loss that is owed is that of ITU-T P.1100.
 */
export function callEcho(
  sent: { recording: Recording; input: number },
  received: { recording: Recording; input: number },
  gainDb = 0,
): CallEcho {
  const said = speechEnvelope(sent.recording, sent.input);
  const heard = speechEnvelope(received.recording, received.input).map((power) => power * 10 ** (-gainDb / 10));
  const loudest = said.reduce((most, power) => Math.max(most, power), 0);
  const limit = loudest * 10 ** (-SPOKEN_DB / 10);
  const spoken = [...said.keys()].filter((n) => loudest > 0 && said[n] > limit);
  const spokenS = spoken.length * HOP_S;
  const nothing = { delayMs: null, lossDb: null, likeness: null, spokenS };
  if (spokenS < LEAST_SPOKEN_S) {
    const says = `Cannot say: the far end speaks for ${spokenS.toFixed(1)} s only; ${LEAST_SPOKEN_S} s and more are needed.`;
    return { ...nothing, status: 'cannot-say', says };
  }
  if (heard.every((power) => power === 0)) {
    return { ...nothing, status: 'cannot-say', says: 'Cannot say: nothing at all was received, not even noise.' };
  }
  const { lag, likeness, chance } = mostAlike(said.map(Math.sqrt), heard.map(Math.sqrt));
  const told = likeness > LEAST_LIKENESS && likeness > chance;
  const answers = (at: number): number[] => spoken.flatMap((n) => heard[n + at] ?? []);
  const spokenDb = db(quantile(ascending(spoken.map((n) => said[n])), 0.5));
  if (!told) {
    const atLeast = spokenDb - db(quantile(ascending(answers(0)), 0.9));
    if (atLeast < ECHO_LOSS_DB) {
      const says = `Cannot say: what is received while the far end speaks lies only ${atLeast.toFixed(0)} dB under it, and is not like it. Keep still in the car, switch the fan off and call again.`;
      return { ...nothing, status: 'cannot-say', says, likeness };
    }
    const says = `No echo: nothing like the far end's words comes back, ${atLeast.toFixed(0)} dB under them and less.`;
    return { ...nothing, status: 'no-echo', says, lossDb: atLeast, likeness };
  }
  const floor = quantile(ascending([...heard]), 0.1);
  const shares = spoken.flatMap((n) => {
    const power = heard[n + lag];
    return power === undefined ? [] : [Math.max(0, power - floor) / said[n]];
  });
  const lossDb = -db(quantile(ascending(shares), 0.5));
  const delayMs = 1000 * lag * HOP_S;
  const owed = lossDb >= ECHO_LOSS_DB;
  const says = `${owed ? 'A faint echo' : 'The far end hears itself'}: ${delayMs.toFixed(0)} ms late and ${lossDb.toFixed(0)} dB under its words; ${ECHO_LOSS_DB} dB are owed.`;
  return { status: owed ? 'no-echo' : 'echo', says, delayMs, lossDb, likeness, spokenS };
}
