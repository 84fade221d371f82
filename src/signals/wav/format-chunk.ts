// The "fmt " chunk: what kind of samples the file holds, refused by name where it is not plain sound.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { latinText, uint16, uint32 } from './bytes.ts';
import { formatName } from './format-names.ts';
import { repairedFrame } from './format-repair.ts';
import { repairedRate } from './rate-repair.ts';
import type { WavFormat, WavNote } from './wav-format.ts';

const linearTag = 1;
const floatTag = 3;
const extensibleTag = 0xfffe;
/** How the sub-formats end that stand for a plain format tag, and those for the same in ambisonic B-format. */
const familiarSubFormats = ['\x80\x00\x00\xaa\x00\x38\x9b\x71', '\x86\x44\xc8\xc1\xca\x00\x00\x00'];

/**
 * The format that the body of a "fmt " chunk describes, made consistent where it contradicts itself.
 *
 * @param body      the chunk from its first byte after the size, any length
 * @param at        byte in the file at which `body` starts, for the messages
 * @param bigEndian true for RIFX
 * @returns the format with what had to be repaired; or why it cannot be read, by the name of the format
 * Source: Multimedia Programming Interface and Data Specifications 1.0 (1991); WAVEFORMATEXTENSIBLE (2001).
 */
export function formatFrom(
  body: Uint8Array,
  at: number,
  bigEndian: boolean,
): Result<{ format: WavFormat; notes: WavNote[] }> {
  const where = `chunk "fmt " at byte ${at - 8}`;
  if (body.length < 14) return failure(badFormat(`The description of the sound has only ${body.length} bytes.`, where));
  const notes: WavNote[] = [];
  const bitsField = body.length >= 16 ? uint16(body, 14, bigEndian) : 0;
  const tag = sampleTag(body, bigEndian, bitsField, notes, where);
  if (tag !== linearTag && tag !== floatTag) return failure(notPlain(tag, where));

  const floatingPoint = tag === floatTag;
  const fields = {
    channels: uint16(body, 2, bigEndian),
    rateHz: uint32(body, 4, bigEndian),
    bytesPerSecond: uint32(body, 8, bigEndian),
    frameBytes: uint16(body, 12, bigEndian),
    bits: bitsField,
  };
  const frame = repairedFrame(fields, floatingPoint);
  if (!frame) return failure(badFormat(contradiction(fields, floatingPoint), where));
  if (frame.repaired) {
    notes.push({
      code: 'format-repaired',
      message: `The header contradicts itself (${frameWords(fields)}); read as ${channelWords(frame.channels)} of ${8 * frame.containerBytes} bits.`,
      where,
    });
  }
  const rate = repairedRate(fields.rateHz, fields.bytesPerSecond / (frame.channels * frame.containerBytes), where);
  if (!rate) return failure(badFormat(`The sample rate cannot be ${fields.rateHz} Hz.`, where));
  notes.push(...rate.notes);

  const containerBits = 8 * frame.containerBytes;
  const stated = extensible(body, bigEndian) ? uint16(body, 18, bigEndian) || bitsField : bitsField;
  const bits = floatingPoint || stated < 1 || stated > containerBits ? containerBits : stated;
  const { channels, containerBytes } = frame;
  return success({
    format: { channels, rateHz: rate.rateHz, containerBytes, bits, floatingPoint, bigEndian },
    notes,
  });
}

/** Whether the chunk says "see the sub-format" and has one. */
function extensible(body: Uint8Array, bigEndian: boolean): boolean {
  return uint16(body, 0, bigEndian) === extensibleTag && body.length >= 40;
}

function sampleTag(body: Uint8Array, bigEndian: boolean, bits: number, notes: WavNote[], where: string): number {
  const tag = uint16(body, 0, bigEndian);
  if (tag !== extensibleTag) return tag;
  if (body.length < 40) {
    // Up to 24 bits only whole numbers are possible; with 32 or 64 it could be either, and a guess could deafen.
    if (![8, 16, 24].includes(bits)) return tag;
    notes.push({
      code: 'sub-format-unfamiliar',
      message: 'The header announces a sub-format that is not there; read as linear PCM.',
      where,
    });
    return linearTag;
  }
  if (!familiarSubFormats.includes(latinText(body, 32, 8))) {
    notes.push({
      code: 'sub-format-unfamiliar',
      message: 'The sub-format is not one of the known ones; what should be the format tag in it was taken as such.',
      where,
    });
  }
  // The first four bytes are one number, whose lower half is the tag.
  return uint32(body, 24, bigEndian) % 65536;
}

function notPlain(tag: number, where: string): Issue {
  return {
    code: 'compressed-format',
    message: `The sound is stored as ${formatName(tag)}, not as plain samples.`,
    where,
    mend: 'Record or export it again as WAV, linear PCM, 16 or 24 bits. Compressed sound is not measured from: what it left out cannot be put back.',
  };
}

function badFormat(message: string, where: string): Issue {
  return {
    code: 'bad-format',
    message,
    where,
    mend: 'The header is damaged. Copy the file from the recorder again, or record again as WAV, linear PCM, 48000 Hz.',
  };
}

interface Fields {
  channels: number;
  frameBytes: number;
  bits: number;
}

function channelWords(channels: number): string {
  return channels === 1 ? '1 channel' : `${channels} channels`;
}

function frameWords(fields: Fields): string {
  return `${channelWords(fields.channels)} of ${fields.bits} bits in ${fields.frameBytes} bytes`;
}

function contradiction(fields: Fields, floatingPoint: boolean): string {
  const kind = floatingPoint ? 'floating-point sound' : 'sound';
  return `The header describes ${kind} that cannot be: ${frameWords(fields)}.`;
}
