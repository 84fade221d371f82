// From the text of an option to its value: numbers in a range, pairs of numbers, one of a list.
import { failure, type Issue, type Result, success } from '../base/result.ts';
import { nearestWord } from './nearest-word.ts';

function badValue(option: string, text: string, rule: string): Issue {
  return {
    code: 'bad-option-value',
    message: `--${option} must be ${rule}, got ${text === '' ? 'nothing' : `"${text}"`}.`,
    where: `--${option}`,
    mend: `Give --${option} ${rule}.`,
  };
}

/** What a number must be: both ends belong to the range; `unit` is for the person. */
export interface NumberRule {
  min: number;
  max: number;
  unit?: string;
  whole?: boolean;
}

function ruleText(rule: NumberRule): string {
  const unit = rule.unit === undefined ? '' : ` ${rule.unit}`;
  return `a ${rule.whole ? 'whole number' : 'number'} from ${rule.min} to ${rule.max}${unit}`;
}

/** A decimal comma as a point, where the comma cannot part thousands: 1,5 and 0,125, but not 1,500. */
function withPoint(text: string): string {
  return /^[+-]?[1-9]\d{0,2},\d{3}$/.test(text) ? text : text.replace(/^([+-]?\d+),(\d+)$/, '$1.$2');
}

function numberFrom(text: string, rule: NumberRule): number | null {
  const spelled = withPoint(text.trim());
  if (!/^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i.test(spelled)) return null;
  const value = Number(spelled);
  if (!(value >= rule.min && value <= rule.max)) return null;
  return rule.whole && !Number.isInteger(value) ? null : value;
}

/** The number that `text` spells, if it keeps the rule. */
export function numberValue(option: string, text: string, rule: NumberRule): Result<number> {
  const value = numberFrom(text, rule);
  return value === null ? failure(badValue(option, text, ruleText(rule))) : success(value);
}

/**
 * Two numbers with a mark between them, the first below the second: `FROM:TO`, or `LOW-HIGH` where neither is negative.
 */
export function pairValue(
  option: string,
  text: string,
  mark: ':' | '-',
  rule: NumberRule,
): Result<{ from: number; to: number }> {
  const parts = text.split(mark);
  const from = numberFrom(parts[0] ?? '', rule);
  const to = numberFrom(parts[1] ?? '', rule);
  const bad = parts.length !== 2 || from === null || to === null || from >= to;
  const rules = `two numbers from ${rule.min} to ${rule.max}${rule.unit === undefined ? '' : ` ${rule.unit}`}, the lower one first, with "${mark}" between them`;
  return bad ? failure(badValue(option, text, rules)) : success({ from, to });
}

/** One word of a list; a near miss is named. */
export function wordValue<Word extends string>(option: string, text: string, words: readonly Word[]): Result<Word> {
  const word = words.find((known) => known === text);
  if (word !== undefined) return success(word);
  const near = nearestWord(text, words);
  const issue = badValue(option, text, `one of ${words.join(', ')}`);
  return failure(near === null ? issue : { ...issue, mend: `Did you mean --${option} ${near}?` });
}
