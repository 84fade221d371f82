// An impedance sweep out of the files that were dropped: one of both voltages, or two, one after the other.
import { failure, type Result } from '../../../base/result.ts';
import type { ImpedanceReading } from '../../../drivers/impedance/impedance-reading.ts';
import { readImpedance } from '../../../drivers/impedance/read-impedance.ts';
import { byteSourceFromArray } from '../../../signals/recording.ts';
import { readWav } from '../../../signals/wav/read-wav.ts';
import type { Circuit } from './impedance-messages.ts';

/** Reads the bytes of one or two WAV files; see `readImpedance` for what is refused. */
export function readFiles(files: readonly Uint8Array[], circuit: Circuit): Result<ImpedanceReading> {
  const { seriesOhm, leadOhm, driverFirst } = circuit;
  const opened = files.map((bytes) => readWav(byteSourceFromArray(bytes)));
  const recordings = opened.flatMap((one) => (one.ok ? [one.value.recording] : []));
  if (recordings.length < opened.length) return failure(...opened.flatMap((one) => (one.ok ? [] : one.issues)));
  const [first, second] = recordings;
  if (second === undefined) {
    const inputs = driverFirst ? { sourceInput: 1, driverInput: 0 } : { sourceInput: 0, driverInput: 1 };
    return readImpedance({ take: first, ...inputs, seriesOhm, leadOhm });
  }
  const [take, driverTake] = driverFirst ? [second, first] : [first, second];
  return readImpedance({ take, driverTake, sourceInput: 0, driverInput: 0, seriesOhm, leadOhm });
}
