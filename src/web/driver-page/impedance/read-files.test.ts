import { expect, test } from 'vitest';
import { definedBy, simulatedTake, woofer } from '../../../../test/impedance/simulated-take.ts';
import { writeWav } from '../../../signals/wav/write-wav.ts';
import { readFiles } from './read-files.ts';

const { sourceV, driverV } = simulatedTake({ driver: woofer, seriesOhm: 10, noise: 0.0003 });
const wav = (...channels: Float64Array[]) => writeWav({ channels, rateHz: 48_000, format: '24' });
const circuit = { seriesOhm: 10, leadOhm: 0, driverFirst: false };
const truth = definedBy(woofer);

test('one file of both voltages, or two, are read in the order that was said', () => {
  const orders: [Uint8Array[], boolean][] = [
    [[wav(sourceV, driverV)], false],
    [[wav(driverV, sourceV)], true],
    [[wav(sourceV), wav(driverV)], false],
    [[wav(driverV), wav(sourceV)], true],
  ];
  for (const [files, driverFirst] of orders) {
    const found = readFiles(files, { ...circuit, driverFirst });
    const { fsHz, qts } = found.ok ? found.value.driver : { fsHz: 0, qts: 0 };
    expect(fsHz / truth.fsHz).toBeCloseTo(1, 2);
    expect(qts / truth.qts).toBeCloseTo(1, 2);
  }
});

test('the wrong order, one input alone, and what is no sound are refused with a way out', () => {
  const refused = (files: Uint8Array[]) => {
    const found = readFiles(files, circuit);
    return found.ok ? null : found.issues[0];
  };
  expect(refused([wav(driverV, sourceV)])).toMatchObject({ code: 'inputs-swapped', mend: expect.any(String) });
  expect(refused([wav(sourceV)])).toMatchObject({ code: 'input-missing', mend: expect.any(String) });
  expect(refused([new TextEncoder().encode('{"no": "sound"}')])?.message).toBeTruthy();
});
