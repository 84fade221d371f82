// What a calculation takes, declared: each input knows its form in words, and reads a value from outside into a typed one.
import type { Refusal } from './refusal.ts';

/** One input. After a fault was said, what `read` returns is not used. */
export interface Input<T> {
  /** Its form for the help, such as `number above 0, ohm`. */
  form: string;
  /** What holds when it is not given, in words; absent for an input that must be given. */
  default?: string;
  read: (value: unknown, where: string, say: (fault: Refusal) => void) => T;
}

/** The typed values that a set of inputs gives. */
export type Values<I> = { [K in keyof I]: I[K] extends Input<infer T> ? T : never };

/** Absent and null are the same: JSON made by a program often carries null for "nothing". */
const isAbsent = (value: unknown): value is null | undefined => value === undefined || value === null;

/** Nothing was given: for an input that may be left out, an empty list says the same. */
const isNothing = (value: unknown) => isAbsent(value) || (Array.isArray(value) && value.length === 0);

/** A value for a message, cut short; lists and objects by their kind, however deep they are. */
export function shownValue(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'an object';
  const text = typeof value === 'string' ? JSON.stringify(value.slice(0, 40)) : String(value);
  return text.slice(0, 42);
}

/** Says that `where` is absent. */
function sayMissing(where: string, form: string, say: (fault: Refusal) => void): void {
  say({ code: 'missing', message: `${where} is missing.`, where, mend: `Give ${where}: ${form}.` });
}

/** Bounds of a number; `min` and `max` belong to the range, `above` and `below` do not. */
export interface NumberRule {
  min?: number;
  max?: number;
  above?: number;
  below?: number;
  /** Only whole numbers are possible. */
  whole?: boolean;
}

function ruleText({ min, max, above, below, whole }: NumberRule): string {
  const low = min !== undefined ? `${min}` : above !== undefined ? `above ${above}` : null;
  const high = max !== undefined ? `${max}` : below !== undefined ? `below ${below}` : null;
  const range =
    low !== null && high !== null
      ? ` ${low} to ${high}`
      : low !== null
        ? ` ${min === undefined ? low : `${low} or more`}`
        : high !== null
          ? ` ${max === undefined ? high : `up to ${high}`}`
          : '';
  return `${whole ? 'whole number' : 'number'}${range}`;
}

function keepsRule(value: number, { min, max, above, below, whole }: NumberRule): boolean {
  return (
    (min === undefined || value >= min) &&
    (max === undefined || value <= max) &&
    (above === undefined || value > above) &&
    (below === undefined || value < below) &&
    (!whole || Number.isInteger(value))
  );
}

/** A finite number within `rule`; `unit` as a person writes it, `''` for none. Text and true/false are no numbers. */
export function number(unit = '', rule: NumberRule = {}): Input<number> {
  const form = `${ruleText(rule)}${unit === '' ? '' : `, ${unit}`}`;
  return {
    form,
    read(value, where, say) {
      if (isAbsent(value)) sayMissing(where, form, say);
      else if (typeof value !== 'number' || !Number.isFinite(value)) {
        const message = `${where} must be a number, got ${shownValue(value)}.`;
        say({ code: 'not-a-number', message, where, mend: `Give ${where} as a ${form}, without quotes.` });
      } else if (!keepsRule(value, rule)) {
        const message = `${where} must be a ${form}; got ${value}.`;
        say({ code: 'out-of-range', message, where, mend: `Check ${where} and its unit.` });
      }
      return value as number;
    },
  };
}

/** A resistance, or `"open"` for no connection, which is read as Infinity. */
export function resistance(rule: NumberRule = { above: 0 }): Input<number> {
  const closed = number('ohm', rule);
  return {
    form: `${closed.form}, or "open"`,
    read: (value, where, say) => (value === 'open' ? Number.POSITIVE_INFINITY : closed.read(value, where, say)),
  };
}

/** One word of a list; any other is `unsupported`. */
export function choice<const W extends string>(words: readonly W[]): Input<W> {
  const form = `one of ${words.join(', ')}`;
  return {
    form,
    read(value, where, say) {
      if (isAbsent(value)) sayMissing(where, form, say);
      else if (!words.includes(value as W)) {
        const message = `${where} ${shownValue(value)} is not one that is known.`;
        say({ code: 'unsupported', message, where, mend: `Give one of ${words.join(', ')}.` });
      }
      return value as W;
    },
  };
}

/** A name or other text. */
export const text: Input<string> = {
  form: 'text',
  read(value, where, say) {
    if (isAbsent(value) || value === '') sayMissing(where, 'text', say);
    else if (typeof value !== 'string') {
      const message = `${where} must be text, got ${shownValue(value)}.`;
      say({ code: 'unsupported', message, where, mend: `Give ${where} in quotes.` });
    }
    return value as string;
  },
};

/** True or false. */
export const flag: Input<boolean> = {
  form: 'true or false',
  read(value, where, say) {
    if (isAbsent(value)) sayMissing(where, 'true or false', say);
    else if (typeof value !== 'boolean') {
      const message = `${where} must be true or false, got ${shownValue(value)}.`;
      say({ code: 'unsupported', message, where, mend: 'Give true or false, without quotes.' });
    }
    return value as boolean;
  },
};

/** One or more of `item`; an empty list is `missing`. */
export function list<T>(item: Input<T>): Input<T[]> {
  const form = `list of ${item.form}`;
  return {
    form,
    read(value, where, say) {
      if (isAbsent(value) || (Array.isArray(value) && value.length === 0)) {
        sayMissing(where, form, say);
        return [];
      }
      if (!Array.isArray(value)) {
        // Not quite the right word for a lone number, but the kind of fault is the same: what can be counted is not there.
        const message = `${where} must be a list, got ${shownValue(value)}.`;
        say({ code: 'not-a-number', message, where, mend: `Give ${where} as a ${form}, in square brackets.` });
        return [];
      }
      return value.map((entry, index) => item.read(entry, `${where}[${index}]`, say));
    },
  };
}

/** An object with inputs of its own. */
export function record<I extends Record<string, Input<unknown>>>(inputs: I): Input<Values<I>> {
  const fields = Object.entries(inputs).map(([key, { form, default: absent }]) =>
    absent === undefined ? `${key}: ${form}` : `${key}: ${form} (default: ${absent})`,
  );
  const form = `{${fields.join('; ')}}`;
  return {
    form,
    read(value, where, say) {
      if (typeof value !== 'object' || value === null || Array.isArray(value)) {
        sayMissing(where, form, say);
        return {} as Values<I>;
      }
      const read = Object.entries(inputs).map(([key, input]) => {
        const inner = Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
        return [key, input.read(inner, `${where}.${key}`, say)];
      });
      return Object.fromEntries(read);
    },
  };
}

/** Values by names of the caller's own, such as coils; an empty object is `missing`. A Map, so that any name will do. */
export function named<T>(item: Input<T>): Input<Map<string, T>> {
  const form = `{name: ${item.form}, ...}`;
  return {
    form,
    read(value, where, say) {
      if (typeof value !== 'object' || value === null || Array.isArray(value) || Object.keys(value).length === 0) {
        sayMissing(where, form, say);
        return new Map();
      }
      return new Map(Object.entries(value).map(([key, inner]) => [key, item.read(inner, `${where}.${key}`, say)]));
    },
  };
}

/** `input`, or `value` when it is not given; `words` say the default where the value alone does not. */
export function orElse<T>(input: Input<T>, value: T, words = String(value)): Input<T> {
  return {
    form: input.form,
    default: words,
    read: (given, where, say) => (isNothing(given) ? value : input.read(given, where, say)),
  };
}

/** `input`, or undefined when it is not given; `words` say what holds then. */
export function optional<T>(input: Input<T>, words = 'none'): Input<T | undefined> {
  return {
    form: input.form,
    default: words,
    read: (given, where, say) => (isNothing(given) ? undefined : input.read(given, where, say)),
  };
}
