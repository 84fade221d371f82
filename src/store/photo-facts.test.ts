import { describe, expect, test } from 'vitest';
import { jpegPhoto, pngPhoto } from '../../test/job/photos.ts';
import { byteSourceFromArray } from '../signals/recording.ts';
import { photoFacts } from './photo-facts.ts';

const of = (bytes: Uint8Array) => photoFacts(byteSourceFromArray(bytes));
const codeOf = (bytes: Uint8Array) => {
  const read = of(bytes);
  return read.ok ? 'taken' : read.issues[0].code;
};
const join = (...parts: (Uint8Array | string)[]) => Buffer.concat(parts.map((part) => Buffer.from(part)));

describe('a picture', () => {
  test('is told by its content, with its size', () => {
    expect(of(jpegPhoto(1, { widthPx: 4000, heightPx: 3000 }))).toEqual({
      ok: true,
      value: { type: 'jpeg', widthPx: 4000, heightPx: 3000 },
    });
    expect(of(jpegPhoto(1, { progressive: true }))).toMatchObject({ value: { type: 'jpeg', widthPx: 12 } });
    expect(of(pngPhoto(640, 480))).toEqual({ ok: true, value: { type: 'png', widthPx: 640, heightPx: 480 } });
  });

  test('may have anything behind its end mark, as telephones write it', () => {
    expect(codeOf(join(jpegPhoto(1), 'a short film'))).toBe('taken');
    expect(codeOf(join(pngPhoto(), 'more'))).toBe('taken');
  });

  test('may hold a stuffed FF and restart marks in its coded data, also across the steps of reading', () => {
    const whole = jpegPhoto(1);
    const [body, end] = [whole.subarray(0, -2), whole.subarray(-2)];
    const scanStart = body.indexOf(Buffer.from([0xff, 0xda])) + 10;
    for (const filler of [65_534, 65_535, 65_536]) {
      const coded = Buffer.alloc(filler - (body.length - scanStart), 7);
      const marks = Buffer.from([0xff, 0x00, 0xff, 0xd3, 0xff, 0xff, 0x00]);
      expect(codeOf(join(body, coded, marks, end))).toBe('taken');
      expect(codeOf(join(body, coded, marks))).toBe('photo-cut-short');
    }
  });

  test('that breaks off anywhere is not taken', () => {
    for (const whole of [jpegPhoto('x'), jpegPhoto('x', { progressive: true }), pngPhoto()]) {
      for (let length = 0; length < whole.length; length++) {
        expect(codeOf(whole.subarray(0, length)), `${length} bytes`).toMatch(/^(photo-cut-short|not-a-photo)$/);
      }
    }
  });
});

describe('refused as no photo', () => {
  test.each([
    ['nothing', ''],
    ['a drawing in markup', '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'],
    ['a page', '<!doctype html><script>alert(1)</script>'],
    ['a picture that is only named so', 'GIF89a and so on and so on'],
    ['markup behind the first bytes of a JPEG', join(Uint8Array.of(0xff, 0xd8, 0xff), '<script>alert(1)</script>')],
    ['a JPEG without a scan', join(jpegPhoto(1).subarray(0, 100), Uint8Array.of(0xff, 0xd9))],
    ['a JPEG that has only its ends', Uint8Array.of(0xff, 0xd8, 0xff, 0xd9)],
    ['a PNG without points', pngPhoto(3, 2, false)],
    ['a PNG of no width', pngPhoto(0, 2)],
    ['a JPEG of no height', jpegPhoto(1, { heightPx: 0 })],
  ])('is %s', (_, bytes) => {
    expect(['not-a-photo', 'photo-cut-short']).toContain(codeOf(Buffer.from(bytes)));
  });

  test('is the container of some telephones, with what to set', () => {
    const read = of(join(Uint8Array.of(0, 0, 0, 24), 'ftypheic0000'));
    expect(read.ok ? null : read.issues[0].mend).toContain('JPEG');
  });

  test('is what would fill a memory', () => {
    expect(codeOf(pngPhoto(16_320, 12_240))).toBe('taken');
    expect(codeOf(pngPhoto(60_000, 60_000))).toBe('photo-too-large');
  });
});
