// What was found at the outputs of a factory source, in words, each with whether it can be undone behind it.
import type { OutputReading, SourceFinding, SourceSum } from './source-answer.ts';

/** A shape flatter than this is flat, dB. */
const FLAT_DB = 1.5;
/** A boost of more than this takes headroom that no source has, dB. */
const MOST_UNDONE_DB = 12;
/** Change with volume that is heard, dB. */
const LOUDNESS_DB = 2;
const DELAY_MS = 0.1;
/** A sum that falls this far under what its parts would give in step is not usable, dB. */
const SUM_LOSS_DB = -6;
/** Corners that a full-range output may have, Hz. */
const FULL_LOW_HZ = 30;
const FULL_HIGH_HZ = 14_000;

const said = (value: number, digits = 3): string => String(Number(value.toPrecision(digits)));
const widest = (curve: readonly number[]): number =>
  curve.reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0);

export function outputFindings(reading: OutputReading): SourceFinding[] {
  const { output, steps, lowHz, highHz, shape, phase, withVolume } = reading;
  const found: SourceFinding[] = [];
  const add = (what: SourceFinding['what'], undo: SourceFinding['undo'], says: string, mend: string): void => {
    found.push({ what, outputs: [output], undo, says: `${output}: ${says}`, mend });
  };
  for (const { step, reason } of steps) {
    if (reason !== null) add('unread', 'no', `step ${said(step)} cannot be read. ${reason}`, 'Record it again.');
  }
  const off = widest(shape.levelDb);
  if (Math.abs(off) > FLAT_DB) {
    const at = shape.fHz[shape.levelDb.indexOf(off)];
    const words = `${said(off, 2)} dB at ${said(at)} Hz against its middle`;
    if (off < -MOST_UNDONE_DB) {
      add(
        'equalizer',
        'in-part',
        `${words}: more than a boost can take back.`,
        'Take the signal before that processing.',
      );
    } else add('equalizer', 'yes', `${words}.`, 'Undo it with the inverse shape, measured again at the same volume.');
  }
  if (lowHz !== null && lowHz > FULL_LOW_HZ) {
    const mend = 'Take the bass from another output and add it, or find the source’s own full-range signal.';
    add('high-pass', 'no', `nothing below ${said(lowHz)} Hz: what is cut off cannot be boosted back.`, mend);
  }
  if (highHz !== null && highHz < FULL_HIGH_HZ) {
    const mend = 'Take the treble from another output and add it.';
    add('low-pass', 'no', `nothing above ${said(highHz)} Hz.`, mend);
  }
  if (phase?.allPass) {
    const { fHz, order } = phase.allPass;
    const mend = 'An all-pass of the same kind in the channels beside it, or a source without it.';
    add('phase', 'in-part', `an all-pass of order ${order} near ${said(fHz, 2)} Hz turns its phase.`, mend);
  }
  if (phase?.sign === -1) add('polarity', 'yes', 'the sign is turned over.', 'Turn the polarity of this input.');
  if (withVolume !== null) {
    const change = widest(withVolume.changeDb);
    if (Math.abs(change) > LOUDNESS_DB) {
      const at = withVolume.fHz[withVolume.changeDb.indexOf(change)];
      add(
        'loudness',
        'no',
        `${said(change, 2)} dB at ${said(at)} Hz between step ${said(withVolume.fromStep)} and ${said(withVolume.toStep)}: its shape follows the volume.`,
        'Hold the source at one volume step and set the level behind it; no fixed shape undoes this.',
      );
    }
  }
  return found;
}

/** What outputs of one take do to each other. */
export function togetherFindings(outputs: readonly OutputReading[], sums: readonly SourceSum[]): SourceFinding[] {
  const found: SourceFinding[] = [];
  const late = outputs.filter(({ delayMs }) => delayMs !== null && delayMs > DELAY_MS);
  if (late.length > 0) {
    const each = late.map(({ output, delayMs }) => `${output} ${said(delayMs ?? 0)} ms`).join(', ');
    found.push({
      what: 'delay',
      outputs: late.map(({ output }) => output),
      undo: 'yes',
      says: `Later than the earliest output: ${each}.`,
      mend: 'Delay the others by as much before outputs are added.',
    });
  }
  for (const { outputs: names, fHz, lossDb } of sums) {
    const worst = Math.min(...lossDb);
    if (!(worst < SUM_LOSS_DB)) continue;
    found.push({
      what: 'sum',
      outputs: names,
      undo: 'in-part',
      says: `Added as they are, ${names.join(' and ')} lose ${said(-worst, 2)} dB at ${said(fHz[lossDb.indexOf(worst)])} Hz.`,
      mend: 'Undo delay, sign and phase first and record again; where the loss stays, do not add them.',
    });
  }
  return found;
}
