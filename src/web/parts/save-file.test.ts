import { expect, test } from 'vitest';
import { fileName } from './save-file.ts';

test('a file is named so that every disk takes it', () => {
  expect(fileName('Left door, 20 Hz \u2013 8 kHz / "new"')).toBe('left-door-20-hz-8-khz-new');
  expect(fileName('\u00e4rgerlich?')).toBe('a-rgerlich');
  expect(fileName('***')).toBe('kickpanel');
});
