// What the screen of gains says: the next channel to set, what one typed value comes to, and what hisses.
import { fixedText, frequencyText, type NumberStyle, significantText } from '../../charts/number-words.ts';
import type { GainRow, GainSheet } from '../../job/gains/gain-sheet.ts';
import { countWords } from '../shop/job-words.ts';

/** Volts as a meter shows them: three figures. */
export const voltsText = (value: number, style: NumberStyle): string => `${significantText(value, 3, style)} V`;

/** The first channel whose gain nothing proves, and whose target is known. */
export function nextChannel({ channels }: GainSheet): GainRow | undefined {
  return channels.find(({ state, reading }) => state !== 'closed' && reading !== null);
}

/** The sentence that the screen opens with. */
export function gainsSentence(sheet: GainSheet, style: NumberStyle): string {
  const { channels } = sheet;
  if (channels.length === 0) return 'The plan has no amplifier channel that drives a load yet.';
  const next = nextChannel(sheet);
  if (next?.reading != null && next.tone !== null) {
    const { terminal, reading, tone } = next;
    return `${terminal}: turn the gain up until the meter reads ${voltsText(reading.targetV, style)} at ${frequencyText(tone.fHz, style)}.`;
  }
  const open = channels.filter(({ state }) => state !== 'closed').length;
  if (open > 0)
    return `Cannot tell what the meter should read on ${countWords(open, 'channel', 'channels').toLowerCase()}.`;
  return 'Every gain stands where it was planned.';
}

export interface TypedGain {
  verdict: 'within' | 'too-low' | 'too-high';
  says: string;
}

/** What a typed value comes to at once. */
export function typedGain(value: number | null, reading: GainRow['reading'], style: NumberStyle): TypedGain | null {
  if (value === null || reading === null || value <= 0) return null;
  const { targetV, lowV, highV } = reading;
  const offDb = 20 * Math.log10(value / targetV);
  const by = `${fixedText(Math.abs(offDb), 1, style)} dB`;
  if (value < lowV) return { verdict: 'too-low', says: `up by ${by}` };
  if (value > highV) return { verdict: 'too-high', says: `down by ${by}` };
  return { verdict: 'within', says: Math.abs(offDb) < 0.05 ? 'on its target' : `within, ${by} off` };
}

/** What is heard of an amplifier when nothing plays, a line a driver. */
export function hissWords(
  { hiss }: GainRow,
  style: NumberStyle,
): { text: string; severity: 'ok' | 'note' | 'fix' | null }[] {
  return hiss.map(({ driver, splDb, distanceM, verdict, needs }) => {
    if (splDb === null || distanceM === null) {
      return { text: `Hiss of ${driver}: cannot tell, ${needs ?? 'something'} is not known.`, severity: null };
    }
    const heard = verdict === 'ok' ? 'not heard' : verdict === 'note' ? 'heard when it is still' : 'heard';
    const level = `${fixedText(splDb, 0, style)} dB SPL at ${significantText(distanceM, 2, style)} m`;
    return { text: `Hiss of ${driver}: ${level}, ${heard}.`, severity: verdict };
  });
}

/** Where each gain of the chain stands for least noise. */
export function settingsWords({ settings }: GainRow, style: NumberStyle): string | null {
  if (settings === null) return null;
  const { inputPadDb, processorOutV, processorTrimDb, amplifierSensitivityV, amplifierGainDb, shortDb } = settings;
  const pad =
    inputPadDb === null || inputPadDb > -0.05
      ? ''
      : `a divider of ${fixedText(-inputPadDb, 1, style)} dB before the input; `;
  const trim = processorTrimDb > -0.05 ? '' : `, turned down ${fixedText(-processorTrimDb, 1, style)} dB`;
  const short = shortDb > 0.05 ? ` It stays ${fixedText(shortDb, 1, style)} dB short.` : '';
  const amplifier = `amplifier at ${voltsText(amplifierSensitivityV, style)} (${fixedText(amplifierGainDb, 1, style)} dB)`;
  return `Least noise: ${pad}processor out ${voltsText(processorOutV, style)}${trim}, ${amplifier}.${short}`;
}

/** Beside what the gain sheet warns of: what hurts ears and drivers at this work. */
export const startCautions: readonly string[] = [
  'Unplug the speakers before a tone plays: at their terminals it is loud enough to hurt within seconds. Keep ears away and protected.',
  'Start with every gain at its least and the volume low; turn up slowly and stop at the target.',
];
