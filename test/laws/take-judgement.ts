// What a reading may say of a spoilt take: the truth, or that it does not know.
import type { ProblemCode } from '../../src/measurement/problems.ts';
import type { Polarity, Reading, Response } from '../../src/measurement/reading.ts';

/** What is true of one sweep of the take. */
export interface SweepTruth {
  arrivalS: number | null;
  sign: 1 | -1 | 0;
  response: { fHz: Float64Array; levelDb: Float64Array };
}

type Shown = 'response' | 'arrival' | 'polarity';

/** Problems that say of a result which is shown: rely on it less. */
const LIMITS: Record<Shown, readonly ProblemCode[]> = {
  response: ['clipped-digital', 'clipped-analogue', 'agc', 'band-limited', 'low-snr', 'no-markers', 'noise-changed'],
  arrival: ['band-limited', 'low-snr', 'no-markers', 'noise-changed'],
  polarity: ['band-limited', 'low-snr', 'no-markers', 'noise-changed'],
};

const WRONG_DB = 1.5;
const WRONG_SHARE = 0.05;
const ARRIVAL_SIGMAS = 5;
const ARRIVAL_SLACK_S = 0.0003;

/** Places in an answer that hold no number where there should be one. */
export function notFinite(value: unknown, place = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${place} is ${value}`];
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return [];
  return Object.entries(value).flatMap(([key, part]) => notFinite(part, `${place}.${key}`));
}

/** What a corruption changed of the truth itself. */
interface ChangedTruth {
  gainDb: number;
  sign: 1 | -1;
  levelFree: boolean;
}

/** Errors of the points that a response calls valid, dB. */
function errorsDb(response: Response, truth: SweepTruth['response'], { gainDb, levelFree }: ChangedTruth): number[] {
  const errors = response.fHz.flatMap((fHz, i) => {
    const at = truth.fHz.findIndex((f) => Math.abs(f / fHz - 1) < 1e-6);
    if (!response.valid[i] || at < 0) return [];
    return [(response.levelDb[i] ?? Number.POSITIVE_INFINITY) - truth.levelDb[at] - gainDb];
  });
  const offset = levelFree ? (errors.toSorted((a, b) => a - b)[errors.length >> 1] ?? 0) : 0;
  return errors.map((error) => error - offset);
}

function wrongResponse(response: Response, truth: SweepTruth['response'], changed: ChangedTruth): string[] {
  const errors = errorsDb(response, truth, changed);
  const wrong = errors.filter((error) => !(Math.abs(error) <= WRONG_DB));
  if (wrong.length <= WRONG_SHARE * errors.length) return [];
  const worst = Math.max(...wrong.map(Math.abs));
  const share = (100 * wrong.length) / errors.length;
  return [`response: ${share.toFixed(0)} % of ${errors.length} points wrong, by up to ${worst.toFixed(1)} dB`];
}

function wrongPolarity(polarity: Polarity | undefined, sign: number): string[] {
  return polarity && polarity.sign !== 0 && polarity.sign !== sign
    ? [`polarity ${polarity.sign} with confidence ${polarity.confidence.toFixed(2)}`]
    : [];
}

/** Numbers that are shown without a word of doubt and are wrong. */
export function confidentlyWrong(reading: Reading, truth: SweepTruth, changed: ChangedTruth): string[] {
  if (!reading.quality.usable) return [];
  const doubted = (shown: Shown): boolean =>
    reading.quality.problems.some(({ code, severity }) => severity !== 'note' && LIMITS[shown].includes(code));
  const complaints: string[] = [];
  const parts = [reading, ...(reading.stimuli ?? [])];
  if (!doubted('response')) {
    for (const { response } of parts) {
      if (response) complaints.push(...wrongResponse(response, truth.response, changed));
    }
  }
  if (!doubted('arrival')) {
    for (const { arrivalS, arrivalSigmaS } of parts) {
      if (arrivalS === undefined || truth.arrivalS === null) continue;
      const away = Math.abs(arrivalS - truth.arrivalS);
      if (away > ARRIVAL_SIGMAS * (arrivalSigmaS ?? 0) + ARRIVAL_SLACK_S) {
        complaints.push(
          `arrival ${(away * 1000).toFixed(2)} ms wrong, sigma ${((arrivalSigmaS ?? 0) * 1000).toFixed(3)} ms`,
        );
      }
    }
  }
  if (!doubted('polarity')) {
    for (const { polarity } of parts) complaints.push(...wrongPolarity(polarity, truth.sign * changed.sign));
  }
  return [...new Set(complaints)];
}
