import { expect, test } from 'vitest';
import { asStoreFailure, isStoreFailure, storeFailure } from './failure.ts';

const of = (code: string) => asStoreFailure(Object.assign(new Error('x'), { code }), '/data');

test.each([
  ['ENOSPC', 'disk-full'],
  ['SQLITE_FULL', 'disk-full'],
  ['EACCES', 'data-not-allowed'],
  ['SQLITE_READONLY_DBMOVED', 'data-not-allowed'],
  ['SQLITE_BUSY_SNAPSHOT', 'data-busy'],
  ['SQLITE_CORRUPT', 'data-damaged'],
  ['SQLITE_NOTADB', 'data-damaged'],
  ['EIO', 'data-not-written'],
  ['SQLITE_IOERR_FSYNC', 'data-not-written'],
])('%s is told as %s, with the place and what to do', (code, told) => {
  expect(of(code)).toMatchObject({ issue: { code: told, where: '/data', mend: expect.any(String) } });
});

test('what is no failure of disk or database comes back as it is', () => {
  const fault = new TypeError('ours');
  expect(asStoreFailure(fault)).toBe(fault);
  const changed = Object.assign(new Error('x'), { code: 'file-changed' });
  expect(asStoreFailure(changed)).toBe(changed);
  const known = storeFailure({ code: 'disk-full', message: 'full' }, null);
  expect(asStoreFailure(known)).toBe(known);
  expect(isStoreFailure(fault)).toBe(false);
});
