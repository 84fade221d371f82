import { describe, expect, test } from 'vitest';
import { errorObject, errorText, plainText, textStyle } from './output.ts';

describe('textStyle', () => {
  test('is 80 columns of plain ASCII where nothing is known', () => {
    expect(textStyle({}, {})).toEqual({ width: 80, unicode: false, colour: false });
  });

  test('goes by the strongest locale that is set', () => {
    expect(textStyle({}, { LANG: 'en_US.UTF-8' }).unicode).toBe(true);
    expect(textStyle({}, { LC_ALL: 'C', LANG: 'en_US.UTF-8' }).unicode).toBe(false);
    expect(textStyle({}, { LC_CTYPE: 'C.utf8', LANG: 'C' }).unicode).toBe(true);
  });

  test('follows the width of a terminal within bounds', () => {
    expect(textStyle({ isTTY: true, columns: 100 }, {}).width).toBe(100);
    expect(textStyle({ isTTY: true, columns: 20 }, {}).width).toBe(60);
    expect(textStyle({ isTTY: true, columns: 400 }, {}).width).toBe(120);
    expect(textStyle({ isTTY: false, columns: 100 }, {}).width).toBe(80);
  });

  test('leaves colour to terminals that want it', () => {
    expect(textStyle({ isTTY: true }, { TERM: 'xterm' }).colour).toBe(true);
    expect(textStyle({ isTTY: true }, { NO_COLOR: '1' }).colour).toBe(false);
    expect(textStyle({ isTTY: true }, { TERM: 'dumb' }).colour).toBe(false);
  });
});

describe('plainText', () => {
  test('keeps ASCII and line ends, and finds a stand-in for the signs that messages use', () => {
    expect(plainText('a ~\nb')).toBe('a ~\nb');
    expect(plainText('the microphone\u2019s path \u2264 5 \u00b1 1 \u00b5s \u2013 \u2026')).toBe(
      "the microphone's path <= 5 +- 1 us - ...",
    );
  });

  test('shows that something was there when it has none', () => {
    expect(plainText('\u5b57\u{1f50a}\t')).toBe('???');
  });
});

describe('bad news', () => {
  const first = { code: 'a', message: 'This is wrong.', where: 'a.wav', mend: 'Mend it.' };
  const second = { code: 'b', message: 'So is this.' };

  test('is one error in JSON, with all of them beside it when there are more', () => {
    expect(errorObject([first])).toEqual({ error: first });
    expect(errorObject([first, second])).toEqual({ error: { ...first, issues: [first, second] } });
  });

  test('says where, what and how to mend it', () => {
    expect(errorText([first, second])).toBe('kickpanel: a.wav: This is wrong.\n  Mend it.\nkickpanel: So is this.\n');
  });

  test('never comes without a message', () => {
    expect(errorObject([]).error.code).toBe('internal');
  });
});
