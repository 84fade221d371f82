// Files that are not WAV, told by their first bytes, so that the refusal can say what was given instead.
import type { Issue } from '../../base/result.ts';
import { latinText } from './bytes.ts';

const exportAsWav = 'Export or record it as WAV, linear PCM, 16 or 24 bits, and give that file.';
const lossy =
  'Record again as WAV, linear PCM: what compression left out cannot be put back, so converting this file does not help a measurement.';
const chooseOther = 'Choose the WAV file of the recording.';

interface Kind {
  /** Where the mark stands, and the mark, one character a byte. */
  at: number;
  mark: string;
  name: string;
  mend: string;
}

const kinds: Kind[] = [
  { at: 0, mark: 'ID3', name: 'an MP3 file', mend: lossy },
  { at: 0, mark: 'fLaC', name: 'a FLAC file', mend: exportAsWav },
  { at: 28, mark: 'OpusHead', name: 'an Ogg file with Opus sound', mend: lossy },
  { at: 29, mark: 'vorbis', name: 'an Ogg file with Vorbis sound', mend: lossy },
  { at: 0, mark: 'OggS', name: 'an Ogg file', mend: lossy },
  { at: 4, mark: 'ftypM4A', name: 'an M4A file (AAC or Apple Lossless sound)', mend: lossy },
  { at: 4, mark: 'ftyp3g', name: 'a 3GP file of a phone', mend: lossy },
  { at: 4, mark: 'ftyp', name: 'an MP4 or M4A file', mend: lossy },
  { at: 0, mark: '\x1aE\xdf\xa3', name: 'a WebM or Matroska file', mend: lossy },
  { at: 0, mark: '#!AMR', name: 'an AMR voice recording of a phone', mend: lossy },
  { at: 0, mark: '0&\xb2u\x8ef\xcf\x11', name: 'a Windows Media file', mend: lossy },
  { at: 8, mark: 'AIFF', name: 'an AIFF file', mend: exportAsWav },
  { at: 8, mark: 'AIFC', name: 'an AIFF-C file', mend: exportAsWav },
  { at: 0, mark: 'caff', name: 'a Core Audio (CAF) file', mend: exportAsWav },
  { at: 0, mark: '.snd', name: 'an AU file', mend: exportAsWav },
  { at: 0, mark: 'riff\x2e\x91\xcf\x11', name: 'a Wave64 file', mend: exportAsWav },
  { at: 0, mark: 'wvpk', name: 'a WavPack file', mend: exportAsWav },
  { at: 0, mark: 'FRM8', name: 'a DSD file', mend: exportAsWav },
  { at: 0, mark: 'DSD ', name: 'a DSD file', mend: exportAsWav },
  { at: 0, mark: 'MThd', name: 'a MIDI file', mend: chooseOther },
  { at: 8, mark: 'AVI ', name: 'an AVI film', mend: exportAsWav },
  { at: 8, mark: 'WEBP', name: 'a WebP picture', mend: chooseOther },
  { at: 0, mark: 'PK\x03\x04', name: 'a ZIP archive or a document', mend: 'Unpack it and give the WAV file inside.' },
  { at: 0, mark: '\x1f\x8b', name: 'a gzip archive', mend: 'Unpack it and give the WAV file inside.' },
  { at: 0, mark: '7z\xbc\xaf', name: 'a 7z archive', mend: 'Unpack it and give the WAV file inside.' },
  { at: 0, mark: 'Rar!', name: 'a RAR archive', mend: 'Unpack it and give the WAV file inside.' },
  { at: 0, mark: '%PDF', name: 'a PDF document', mend: chooseOther },
  { at: 0, mark: '\x89PNG', name: 'a PNG picture', mend: chooseOther },
  { at: 0, mark: '\xff\xd8\xff', name: 'a JPEG picture', mend: chooseOther },
  { at: 0, mark: 'GIF8', name: 'a GIF picture', mend: chooseOther },
  { at: 0, mark: '\x7fELF', name: 'a program', mend: chooseOther },
];

/**
 * Why a file is no WAV, in words.
 *
 * @param head its first bytes, up to some hundred, at least 1
 */
export function foreignFile(head: Uint8Array): Issue {
  const told = kindOf(head);
  const name = told?.name ?? 'no WAV file: its first bytes are those of no format known here';
  return {
    code: 'not-a-wav',
    message: told ? `This is ${name}, not a WAV file.` : `This is ${name}.`,
    where: 'byte 0',
    mend: told?.mend ?? chooseOther,
  };
}

function kindOf(head: Uint8Array): { name: string; mend: string } | undefined {
  const byMark = kinds.find((kind) => latinText(head, kind.at, kind.mark.length) === kind.mark);
  if (byMark) return byMark;
  if (head.every((byte) => byte === 0)) {
    return {
      name: 'a file that begins with nothing but zeros',
      mend: 'The card or the copy failed: copy or record again.',
    };
  }
  if (head.length > 3 && head[0] === 0xff && (head[1] & 0xe0) === 0xe0 && head[2] !== 0xff) {
    if ((head[1] & 0xf6) === 0xf0) return { name: 'an AAC file', mend: lossy };
    // Layers 2 and 3; layer 1 is extinct, and its mark is that of text in two bytes a character.
    if ([0x02, 0x04].includes(head[1] & 0x06) && (head[2] & 0xf0) !== 0xf0) return { name: 'an MP3 file', mend: lossy };
  }
  return textKind(head);
}

function textKind(head: Uint8Array): { name: string; mend: string } | undefined {
  const text = latinText(head, 0, head.length).replace(/^(\xef\xbb\xbf|\xff\xfe|\xfe\xff)/, '');
  // Text in two bytes a character has a zero in every other place.
  const plain = text.replaceAll('\0', '');
  if (plain.length < text.length * 0.45 || ![...plain].every(isTextCharacter)) return undefined;
  const start = plain.trimStart();
  if (start.startsWith('{') || start.startsWith('[')) {
    return { name: 'a JSON text', mend: 'Choose the WAV file of the recording; the track description is not sound.' };
  }
  if (start.startsWith('<')) return { name: 'a web page or XML text', mend: chooseOther };
  return { name: 'a text file', mend: chooseOther };
}

function isTextCharacter(character: string): boolean {
  return character >= ' ' || '\t\n\v\f\r\x1b'.includes(character);
}
