import { describe, expect, it } from 'vitest';
import { joined, number32, text } from '../../../test/wav/made-wav.ts';
import { hash32 } from '../../base/random.ts';
import { byteSourceFromArray } from '../recording.ts';
import { readWav } from './read-wav.ts';

function refusal(bytes: Uint8Array): string {
  const result = readWav(byteSourceFromArray(bytes));
  if (result.ok) throw new Error('read');
  expect(result.issues).toHaveLength(1);
  expect(result.issues[0]).toMatchObject({ code: 'not-a-wav', where: 'byte 0', mend: expect.stringMatching(/\w/) });
  return result.issues[0].message;
}

const rest = Uint8Array.from({ length: 600 }, (_, i) => hash32(5, i) & 255);
const utf16 = (letters: string) => joined(text('\xff\xfe'), ...[...letters].map((letter) => text(`${letter}\0`)));

describe('files that are not WAV', () => {
  it.each([
    ['an MP3 file', text('ID3\x03\0')],
    ['an MP3 file', text('\xff\xfb\x90\x64')],
    ['an MP3 file', text('\xff\xf3\x40\xc0')],
    ['an AAC file', text('\xff\xf1\x50\x80')],
    ['a FLAC file', text('fLaC\0\0\0\x22')],
    ['an Ogg file with Opus', joined(text('OggS\0\x02'), new Uint8Array(22), text('OpusHead'))],
    ['an Ogg file with Vorbis', joined(text('OggS\0\x02'), new Uint8Array(22), text('\x01vorbis'))],
    ['an Ogg file', text('OggS\0\x02')],
    ['an M4A file', text('\0\0\0\x20ftypM4A ')],
    ['an MP4 or M4A file', text('\0\0\0\x20ftypisom')],
    ['a 3GP file', text('\0\0\0\x18ftyp3gp5')],
    ['a WebM or Matroska file', text('\x1a\x45\xdf\xa3\x9f')],
    ['an AMR voice recording', text('#!AMR\n')],
    ['a Windows Media file', text('\x30\x26\xb2\x75\x8e\x66\xcf\x11')],
    ['an AIFF file', joined(text('FORM'), number32(9), text('AIFF'))],
    ['an AIFF-C file', joined(text('FORM'), number32(9), text('AIFC'))],
    ['a Core Audio (CAF) file', text('caff\0\x01')],
    ['a Wave64 file', text('riff\x2e\x91\xcf\x11')],
    ['an AU file', text('.snd')],
    ['an AVI film', joined(text('RIFF'), number32(9), text('AVI '))],
    ['a ZIP archive', text('PK\x03\x04')],
    ['a PDF document', text('%PDF-1.7')],
    ['a PNG picture', text('\x89PNG\r\n')],
    ['a JPEG picture', text('\xff\xd8\xff\xe0')],
  ])('%s is called that', (name, mark) => {
    expect(refusal(joined(mark, rest))).toContain(`This is ${name}`);
  });

  it.each([
    ['a JSON text', text('\n {"schema": "kickpanel.track/1"}')],
    ['a JSON text', text('\xef\xbb\xbf[1, 2]')],
    ['a JSON text', utf16('{"a": 1}')],
    ['a web page or XML text', text('<!doctype html><title>not found</title>')],
    ['a text file', text('20\t0,3\r\n25\t0,2\r\n')],
    ['a text file', text('Messung vom 3. M\xc3\xa4rz')],
    ['a file that begins with nothing but zeros', new Uint8Array(4000)],
    ['no WAV file', rest],
    ['no WAV file', Uint8Array.of(0xff, 0xff, 0xff, 0xff, 0x03)],
    ['no WAV file', Uint8Array.of(7)],
  ])('%s is told by its content', (name, bytes) => {
    expect(refusal(bytes)).toContain(`This is ${name}`);
  });

  it('does not advise to convert what compression has already harmed', () => {
    const result = readWav(byteSourceFromArray(joined(text('ID3'), rest)));
    expect(result).toMatchObject({ ok: false, issues: [{ mend: expect.stringContaining('Record again') }] });
  });
});
