// A JSON file held against its schema, every complaint with the place in the file.
import type { z } from 'zod';
import { failure, type Issue, type Result, success } from '../base/result.ts';
import { readTextFile } from './text-file.ts';

const maxBytes = 20e6;

/** `segments[2].startS` from `['segments', 2, 'startS']`. */
export function pathText(path: PropertyKey[]): string {
  return path
    .map((key, index) => (typeof key === 'number' ? `[${key}]` : `${index > 0 ? '.' : ''}${String(key)}`))
    .join('');
}

/** Line and column, both counted from 1, of the character a JSON complaint names; null where it names none. */
function placeOf(text: string, complaint: string): string | null {
  const position = /position (\d+)/.exec(complaint)?.[1];
  const end = /end of JSON/.test(complaint) ? text.length : null;
  const at = position === undefined ? end : Number(position);
  if (at === null) return null;
  const before = text.slice(0, at).split('\n');
  return `line ${before.length}, column ${before[before.length - 1].length + 1}`;
}

function notJson(path: string, text: string, error: unknown, what: string): Issue {
  if (text.trim() === '')
    return { code: 'not-json', message: 'The file is empty.', where: path, mend: `Give ${what}.` };
  const sound = text.startsWith('RIFF') || text.startsWith('RF64');
  const place = placeOf(text, (error as Error).message);
  return {
    code: 'not-json',
    message: sound ? `This is a sound file, not ${what}.` : `This is not JSON${place === null ? '' : ` (${place})`}.`,
    where: path,
    mend: sound ? `Give ${what}.` : `Give ${what}, as it was written.`,
  };
}

function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'an object';
  const text = JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 37)}...` : text;
}

const typeWords: Record<string, string> = {
  string: 'text in quotes',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  null: 'null',
};

/** The rule that was broken, to follow "must be". */
function ruleText(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_type') return typeWords[issue.expected] ?? `of type ${issue.expected}`;
  if (issue.code === 'invalid_value')
    return issue.values.length > 1 ? `one of ${issue.values.join(', ')}` : `"${String(issue.values[0])}"`;
  const text =
    (issue.code === 'too_small' || issue.code === 'too_big') && issue.origin === 'string' ? ' characters' : '';
  const list = (issue.code === 'too_small' || issue.code === 'too_big') && issue.origin === 'array' ? 'a list of ' : '';
  const end = list === '' ? text : ' entries';
  if (issue.code === 'too_small') return `${list}${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}${end}`;
  if (issue.code === 'too_big') return `${list}${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}${end}`;
  return 'of a form that is known';
}

/** What the schema itself says of a broken rule; null where it has no words of its own. */
function ownWords(issue: z.core.$ZodIssue): string | null {
  if (issue.code === 'unrecognized_keys') {
    const shownKeys = issue.keys.slice(0, 5).map((key) => shown(key));
    return `there is no field ${shownKeys.join(', ')}${issue.keys.length > 5 ? ' and more' : ''}`;
  }
  if (issue.code !== 'custom' && issue.code !== 'invalid_format') return null;
  if (issue.message.startsWith('Invalid')) return null;
  return issue.code === 'custom' ? issue.message : `${issue.message}, got ${shown(issue.input)}`;
}

/** One complaint of the schema in an installer's words. */
function schemaIssue(path: string, issue: z.core.$ZodIssue, what: string): Issue {
  const field = pathText(issue.path);
  const said = ownWords(issue);
  const mend = `Give ${what} as it was written, or mend this field.`;
  if (said !== null) {
    return { code: 'field-invalid', message: `${field === '' ? 'The content' : field}: ${said}.`, where: path, mend };
  }
  const missing = issue.code === 'invalid_type' && issue.input === undefined;
  const name = field === '' ? 'The content' : field;
  const got =
    Array.isArray(issue.input) && issue.code !== 'invalid_type' ? `${issue.input.length}` : shown(issue.input);
  return {
    code: missing ? 'field-missing' : 'field-invalid',
    message: missing ? `${name} is missing.` : `${name} must be ${ruleText(issue)}, got ${got}.`,
    where: path,
    mend,
  };
}

/** Whether a branch of a union was not even meant: its kind is another one. */
function notMeant(branch: z.core.$ZodIssue[]): boolean {
  return branch.some(
    (issue) => issue.code === 'custom' || (issue.code === 'invalid_union' && issue.errors.length === 0),
  );
}

/** Unions complain as a whole; what helps is what the branch says that was meant, or else came nearest. */
function unfolded(issue: z.core.$ZodIssue): z.core.$ZodIssue[] {
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return [issue];
  const weight = (branch: z.core.$ZodIssue[]) => branch.length + (notMeant(branch) ? 1000 : 0);
  const nearest = issue.errors.reduce((best, branch) => (weight(branch) < weight(best) ? branch : best));
  return nearest.flatMap((inner) => unfolded({ ...inner, path: [...issue.path, ...inner.path] }));
}

/**
 * Reads a JSON file and holds it against `schema`.
 *
 * @param what the file in words, with its article: `a track description (F.track.json)`
 * @returns the value, or every complaint with its place in the file
 */
export function readJsonFile<Value>(path: string, schema: z.ZodType<Value>, what: string): Result<Value> {
  const text = readTextFile(path, maxBytes);
  if (!text.ok) return text;
  let data: unknown;
  try {
    data = JSON.parse(text.value);
  } catch (error) {
    return failure(notJson(path, text.value, error, what));
  }
  const parsed = schema.safeParse(data, { reportInput: true });
  if (parsed.success) return success(parsed.data);
  return failure(...parsed.error.issues.flatMap(unfolded).map((issue) => schemaIssue(path, issue, what)));
}
