// A reading in words: the sentence above it, and its facts.
import type { NumberStyle } from '../../charts/number-words.ts';
import { fixedText, frequencyText, signedText, significantText } from '../../charts/number-words.ts';
import { responseSentence } from '../../charts/reading/response-plot.ts';
import type { PairSign, PassBand, Polarity, Reading } from '../../measurement/reading.ts';

export type ReadingSeverity = 'ok' | 'note' | 'fix' | 'stop';

/** How far a reading may be relied on. */
export function readingSeverity({ quality }: Reading): ReadingSeverity {
  if (!quality.usable) return 'stop';
  if (quality.problems.some(({ severity }) => severity === 'limit')) return 'fix';
  return quality.problems.length > 0 ? 'note' : 'ok';
}

export const severityWords: Record<ReadingSeverity, string> = {
  ok: 'Recording is sound',
  note: 'Recording is sound',
  fix: 'Usable in part',
  stop: 'Not usable',
};

/** One sentence that carries the result. */
export function readingSentence(reading: Reading, style: NumberStyle): string {
  const severity = readingSeverity(reading);
  if (severity === 'stop') return reading.quality.verdict;
  const worth = severity === 'fix' ? 'Usable in part.' : 'A clean take.';
  if (reading.response) return `${worth} ${responseSentence(reading, { style })}`;
  if (reading.leftMinusRightS !== undefined) {
    const ms = reading.leftMinusRightS * 1000;
    const size = significantText(Math.abs(ms), 3, style);
    return `${worth} The left driver sounds ${size} ms ${ms > 0 ? 'after' : 'before'} the right one.`;
  }
  if (reading.polarity && reading.polarity.sign !== 0) {
    return `${worth} The driver ${reading.polarity.sign > 0 ? 'pushes when it should push' : 'pulls when it should push'}.`;
  }
  if (reading.polarity) return `Not sure whether it pushes or pulls, because ${lowerFirst(reading.polarity.reason)}.`;
  return reading.quality.verdict;
}

export function lowerFirst(text: string): string {
  return /^[A-Z][a-z ]/.test(text) ? text[0].toLowerCase() + text.slice(1).replace(/\.$/, '') : text.replace(/\.$/, '');
}

/** What same and opposite noise hint at. */
export function pairText({ sign, sameOverOppositeDb }: PairSign): string {
  if (sign === 0 || sameOverOppositeDb === null) return 'cannot say';
  return `${sign > 0 ? 'pull together' : 'pull against each other'}, a hint`;
}

export function polarityText({ sign, confidence }: Polarity): string {
  if (sign === 0) return 'cannot say';
  return `${sign > 0 ? 'pushes' : 'pulls: reversed'}, ${Math.round(confidence * 100)} % sure`;
}

export function arrivalText(seconds: number, sigma: number | undefined, style: NumberStyle): string {
  const value = signedText(seconds * 1000, 2, style);
  const spread = sigma === undefined || sigma < 0.000005 ? '' : ` \u00b1 ${fixedText(sigma * 1000, 2, style)}`;
  return `${value}${spread} ms`;
}

function edgeText(fHz: number | null, slope: number | null, open: string, style: NumberStyle): string {
  if (fHz === null) return open;
  const falls = slope === null ? '' : `, ${fixedText(slope, 0, style)} dB/oct`;
  return `${frequencyText(fHz, style)}${falls}`;
}

export function bandEdges(band: PassBand, style: NumberStyle): { low: string; high: string } {
  return {
    low: edgeText(band.lowHz, band.lowSlopeDbPerOctave, 'below what was played', style),
    high: edgeText(band.highHz, band.highSlopeDbPerOctave, 'above what was played', style),
  };
}

/** Median of the response over the noise where it is known, dB. */
export function medianSnrDb({ quality }: Reading): number | null {
  const known = (quality.snr?.db ?? []).filter((value): value is number => value !== null).sort((a, b) => a - b);
  return known.length === 0 ? null : known[Math.floor(known.length / 2)];
}
