// What one answer to a check comes to, in a word and in a sentence.
import { said } from '../rules/words.ts';
import { type Found, type PlainCheckUnit, plainCheckValue } from './check-forms.ts';
import type { Check, CheckExpectation } from './checks.ts';

/** `kept`: a photo, a take or words, which a person looks at; the tool says nothing of them. */
export const answerVerdicts = ['fine', 'fault', 'cannot-tell', 'kept', 'not-tried', 'not-fitted'] as const;
export type AnswerVerdict = (typeof answerVerdicts)[number];

/** What is known beside the answer. */
export interface CheckCircumstances {
  /** Of the vehicle, as the plan says it. */
  systemVoltageV: number | undefined;
  takes: ReadonlyMap<string, string>;
  photos: ReadonlyMap<string, string>;
}

export interface JudgedAnswer {
  verdict: AnswerVerdict;
  /** What was found, in words: "12.58 V", "photo Left sill: scratch". */
  says: string;
  /** Why it is a fault or cannot be told; absent where nothing needs to be said. */
  why?: string;
}

/** Amperes below one are told in milliamperes, as a meter shows them. */
export function checkWords(value: number, unit: PlainCheckUnit): string {
  if (unit === 'A' && value < 1) return `${said(value * 1000)} mA`;
  // Volts to the hundredth: three figures would make 12.58 a 12.6.
  return `${Number(value.toFixed(2))} ${unit}`;
}

/** Of a 24 V network twice the volts. A plan that does not say it leaves it to the reading: no 12 V network reads 18 V. */
export function expectedHere(
  expected: CheckExpectation,
  value: number | null,
  systemVoltageV: number | undefined,
): { low: number; high: number } {
  const is24 = expected.unit === 'V' && (systemVoltageV ?? (value !== null && value > 18 ? 24 : 12)) === 24;
  const times = is24 ? 2 : 1;
  return { low: expected.low * times, high: expected.high * times };
}

function measuredVerdict(
  { expected }: Check,
  found: Extract<Found, { how: 'measured' }>,
  systemVoltageV: number | undefined,
): JudgedAnswer {
  const { value, unit } = plainCheckValue(found.value, found.unit);
  const after = found.afterMin === undefined ? '' : ` after ${said(found.afterMin)} min`;
  const says = `${checkWords(value, unit)}${after}${found.words === undefined ? '' : `: ${found.words}`}`;
  if (expected === undefined || expected.unit !== unit) return { verdict: 'kept', says };
  const { low, high } = expectedHere(expected, value, systemVoltageV);
  if (value >= low && value <= high) return { verdict: 'fine', says };
  const range =
    low === 0 ? `${checkWords(high, unit)} at most` : `${checkWords(low, unit)} to ${checkWords(high, unit)}`;
  const { settlesMin } = expected;
  if (settlesMin !== undefined && value > high && (found.afterMin ?? 0) < settlesMin) {
    return {
      verdict: 'cannot-tell',
      says,
      why: `Perhaps not asleep yet: read it again ${settlesMin} min after locking.`,
    };
  }
  return { verdict: 'fault', says, why: `Expected is ${range}.` };
}

const seenWords = { ok: 'fine', fault: 'a fault', 'not-tried': 'not tried', 'not-fitted': 'the car has none' } as const;

/** One answer to a check, judged. */
export function judgedAnswer(check: Check, found: Found, around: CheckCircumstances): JudgedAnswer {
  const words = 'words' in found && found.words !== undefined ? `: ${found.words}` : '';
  switch (found.how) {
    case 'seen': {
      const says = `${seenWords[found.found]}${words}`;
      return { verdict: found.found === 'ok' ? 'fine' : found.found, says };
    }
    case 'measured':
      return measuredVerdict(check, found, around.systemVoltageV);
    case 'photo': {
      const name = around.photos.get(found.photo);
      if (name === undefined) {
        return { verdict: 'cannot-tell', says: `a photo${words}`, why: 'The photo was taken back afterwards.' };
      }
      return { verdict: 'kept', says: `photo ${name}${words}` };
    }
    case 'take': {
      const name = around.takes.get(found.take);
      if (name === undefined) {
        return {
          verdict: 'cannot-tell',
          says: `a take${words}`,
          why: 'The take was set aside or taken back afterwards.',
        };
      }
      return { verdict: 'kept', says: `take ${name}${words}` };
    }
    case 'said':
      return { verdict: 'kept', says: 'in the words of the owner' };
  }
}
