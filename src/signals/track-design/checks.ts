// Rules for single wishes: each returns the issues it finds, worded for the person who made the wish.
import type { Issue } from '../../base/result.ts';
import { highestHz } from './defaults.ts';
import { type KindField, kindTraits, type TrackKind, type TrackRequest, trackKinds, trackRatesHz } from './request.ts';

/** The lowest stimulus frequency, Hz: below it neither a driver nor a microphone says anything. */
const LOWEST_HZ = 5;
/** Both fades of a sweep must fit into its band. */
const LEAST_BAND_RATIO = Math.SQRT2;
const LEVEL_MIN_DBFS = -80;

/** One issue: what is wrong with which field, and how to mend it. The message becomes a sentence. */
export function issue(code: string, where: string, message: string, mend: string): Issue {
  return { code, message: `${message[0].toUpperCase()}${message.slice(1)}.`, where, mend };
}

/** A number outside `[min, max]`, or a broken one where a whole one is needed. */
export function numberIssues(
  where: string,
  what: string,
  value: number | undefined,
  rule: { min: number; max: number; unit?: string; whole?: boolean },
): Issue[] {
  if (value === undefined) return [];
  if (value >= rule.min && value <= rule.max && (!rule.whole || Number.isInteger(value))) return [];
  const unit = rule.unit === undefined ? '' : ` ${rule.unit}`;
  const range = `${rule.whole ? 'a whole number ' : ''}from ${rule.min} to ${rule.max}${unit}`;
  return [issue('out-of-range', where, `${what} must be ${range}, got ${value}`, `Choose ${range}.`)];
}

/** Kind and rate: without them nothing else can be judged. */
export function groundIssues(request: TrackRequest): Issue[] {
  const issues: Issue[] = [];
  if (!(trackKinds as readonly string[]).includes(request.kind)) {
    const kinds = trackKinds.join(', ');
    issues.push(issue('unknown-kind', 'kind', `there is no track kind "${request.kind}"`, `Choose one of ${kinds}.`));
  }
  if (!(trackRatesHz as readonly number[]).includes(request.rateHz)) {
    const rates = trackRatesHz.join(', ');
    issues.push(
      issue(
        'rate-unsupported',
        'rateHz',
        `no track is made at ${request.rateHz} samples per second`,
        `Choose ${rates}.`,
      ),
    );
  }
  return issues;
}

const fieldUse: Record<KindField, string> = {
  fromHz: 'a lower band limit',
  toHz: 'an upper band limit',
  levelsDbfs: 'a list of levels',
  tonesHz: 'a list of tones',
  relation: 'a relation between the sides',
  outputs: 'a number of outputs',
};

/** Wishes that this kind of track has no use for: said, not passed over, for the person meant something by them. */
export function uselessFields(request: TrackRequest): Issue[] {
  const fields = Object.keys(fieldUse) as KindField[];
  return fields
    .filter((field) => request[field] !== undefined && !kindTraits[request.kind].takes.includes(field))
    .map((field) => {
      const kinds = trackKinds.filter((kind) => kindTraits[kind].takes.includes(field)).join(', ');
      const message = `a ${request.kind} track has no use for ${fieldUse[field]}`;
      return issue(
        'not-for-this-kind',
        field,
        message,
        `Leave it out, or choose one of the kinds that take it: ${kinds}.`,
      );
    });
}

/** A band that cannot be swept, or not at this rate. */
export function bandIssues(fromHz: number, toHz: number, rateHz: number): Issue[] {
  const top = highestHz(rateHz);
  const issues = numberIssues('fromHz', 'the lower band limit', fromHz, { min: LOWEST_HZ, max: top, unit: 'Hz' });
  if (!(toHz <= top)) {
    const message = `at ${rateHz} samples per second a track may rise to ${top} Hz, got ${toHz} Hz`;
    issues.push(issue('above-the-rate', 'toHz', message, `End at ${top} Hz or below, or raise the sample rate.`));
  }
  if (!(toHz > fromHz)) {
    const message = `the band must rise, got ${fromHz} to ${toHz} Hz`;
    issues.push(issue('band-reversed', 'toHz', message, 'Give the lower frequency first.'));
  } else if (toHz < fromHz * LEAST_BAND_RATIO) {
    const message = `the band must span half an octave at least, got ${fromHz} to ${toHz} Hz`;
    issues.push(issue('band-too-narrow', 'toHz', message, 'Widen the band, or use a tone.'));
  }
  return issues;
}

/** A level that is no number, too low to be of use, or above what the kind allows. */
export function levelIssues(kind: TrackKind, where: string, levelDbfs: number): Issue[] {
  const { ceilingDbfs } = kindTraits[kind];
  if (levelDbfs > ceilingDbfs) {
    const message = `a ${kind} track may peak at ${ceilingDbfs} dBFS, got ${levelDbfs} dBFS`;
    return [issue('level-over-ceiling', where, message, `Choose ${ceilingDbfs} dBFS or less, and start far lower.`)];
  }
  return numberIssues(where, 'the level', levelDbfs, { min: LEVEL_MIN_DBFS, max: ceilingDbfs, unit: 'dBFS' });
}

/** Levels that do not rise, or that contradict the level given for the whole track. */
export function levelsIssues(request: TrackRequest): Issue[] {
  const levels = request.levelsDbfs;
  if (levels === undefined) return [];
  const issues = levels.flatMap((level) => levelIssues(request.kind, 'levelsDbfs', level)).slice(0, 1);
  if (levels.length < 2 || levels.length > 100) {
    const message = `2 to 100 levels make a series, got ${levels.length}`;
    issues.push(issue('levels-count', 'levelsDbfs', message, 'Give a first level, a last one and a step between.'));
  }
  if (levels.some((level, index) => index > 0 && !(level > levels[index - 1]))) {
    const message = 'levels must rise, so that the quiet ones warn before the loud ones harm';
    issues.push(issue('levels-not-rising', 'levelsDbfs', message, 'Put the lowest level first.'));
  }
  const top = Math.max(...levels);
  if (request.levelDbfs !== undefined && top > request.levelDbfs) {
    const message = `the levels reach ${top} dBFS, above the track's own ${request.levelDbfs} dBFS`;
    issues.push(
      issue('levels-over-level', 'levelsDbfs', message, 'Lower the levels, or leave the level of the track out.'),
    );
  }
  return issues;
}
