import { describe, expect, it } from 'vitest';
import { textFromBytes } from './calibration-text.ts';

const words = 'Freq\tdB\r\n20\t-0,3 °µ\r\n';

function wide(text: string, bigEndian: boolean): Uint8Array {
  const bytes = new Uint8Array(2 * text.length);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), !bigEndian);
  return bytes;
}

describe('text of unknown coding', () => {
  it.each([
    ['UTF-8', new TextEncoder().encode(words)],
    ['UTF-8 with its mark', new TextEncoder().encode(`\ufeff${words}`)],
    ['UTF-16, little end first, with its mark', wide(`\ufeff${words}`, false)],
    ['UTF-16, big end first, with its mark', wide(`\ufeff${words}`, true)],
    ['UTF-16 without a mark', wide(words, false)],
    ['UTF-16, big end first, without a mark', wide(words, true)],
    ['one byte a character', Uint8Array.from(words, (letter) => letter.charCodeAt(0))],
  ])('is read from %s', (_, bytes) => {
    expect(textFromBytes(bytes)).toBe(words);
  });

  it('is empty for no bytes, and never fails on rubbish', () => {
    expect(textFromBytes(new Uint8Array(0))).toBe('');
    expect(textFromBytes(Uint8Array.of(0xff))).toBe('ÿ');
    for (let first = 0; first < 256; first++) {
      expect(typeof textFromBytes(Uint8Array.of(first, 0, 255, 0, first))).toBe('string');
    }
  });
});
