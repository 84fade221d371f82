// An impedance sweep out of recordings: which input is which, and whether they can be read at all.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import type { Recording } from '../../signals/recording.ts';
import type { VoltagePair } from './divider-response.ts';
import type { ImpedanceReading } from './impedance-reading.ts';
import { measuredDriver } from './measured-driver.ts';

/** Recordings of a sweep that goes through a known resistor into the driver. Inputs are counted from 0. */
export interface ImpedanceTake {
  /** Both voltages at one time; with `driverTake` the one before the resistor alone. */
  take: Recording;
  /** The same sound again, with the input moved to the driver. */
  driverTake?: Recording;
  /** Like `take`, with the driver unplugged: it makes inputs of unlike gain alike. */
  unplugged?: Recording;
  /** The input before the resistor, and the one at the driver. */
  sourceInput: number;
  driverInput: number;
  /** The known resistor, above 0. */
  seriesOhm: number;
  /** Leads and clips from the second input to the coil, 0 or more. */
  leadOhm: number;
}

const SECONDS_MAX = 60;
/** So many samples in a row at full scale are no chance. */
const CLIPPED_RUN = 4;
const FULL = 0.999;

function isClipped(samples: Float64Array): boolean {
  let run = 0;
  for (const sample of samples) {
    run = Math.abs(sample) >= FULL ? run + 1 : 0;
    if (run >= CLIPPED_RUN) return true;
  }
  return false;
}

function voltage(recording: Recording, input: number, where: string): Result<Float64Array> {
  const bad = (code: string, message: string, mend: string): Result<never> => failure({ code, message, where, mend });
  if (input >= recording.channels) {
    const has = recording.channels === 1 ? 'one input' : `${recording.channels} inputs`;
    return bad(
      'input-missing',
      `Input ${input + 1} is asked for and the recording has ${has}.`,
      'Record both voltages at one time, or one after the other in two files.',
    );
  }
  if (recording.frames > SECONDS_MAX * recording.rateHz) {
    return bad('too-long', `The recording is longer than ${SECONDS_MAX} s.`, 'Record one sweep of 5 to 20 s.');
  }
  const samples = new Float64Array(recording.frames);
  recording.readChannel(input, 0, recording.frames, samples);
  if (!isClipped(samples)) return success(samples);
  return bad('clipped', `Input ${input + 1} is clipped.`, 'Turn the input down, not the sweep, and record again.');
}

function pairOf(source: Result<Float64Array>, driver: Result<Float64Array>, rateHz: number, simultaneous: boolean) {
  const issues: Issue[] = [source, driver].flatMap((one) => (one.ok ? [] : one.issues));
  if (!source.ok || !driver.ok) return failure<VoltagePair>(...issues);
  return success<VoltagePair>({ sourceV: source.value, driverV: driver.value, rateHz, simultaneous });
}

/**
 * Reads the impedance of a driver from one recording of both voltages, or from two, one after the other.
 *
 * @returns what `measuredDriver` says, or why the recordings cannot be read (`input-missing`, `too-long`, `clipped`,
 *   `rates-differ`); `where` names the recording
 */
export function readImpedance(asked: ImpedanceTake): Result<ImpedanceReading> {
  const { take, driverTake, unplugged, sourceInput, driverInput, seriesOhm, leadOhm } = asked;
  const { rateHz } = take;
  const others = [driverTake, unplugged].flatMap((one) => one ?? []);
  const other = others.find((one) => one.rateHz !== rateHz);
  if (other !== undefined) {
    const message = `One recording has ${rateHz} samples a second, another ${other.rateHz}.`;
    return failure({ code: 'rates-differ', message, mend: 'Record all of them at one rate.' });
  }
  const pair = pairOf(
    voltage(take, sourceInput, 'the take'),
    voltage(driverTake ?? take, driverInput, driverTake === undefined ? 'the take' : 'the take at the driver'),
    rateHz,
    driverTake === undefined,
  );
  const open =
    unplugged === undefined
      ? null
      : pairOf(
          voltage(unplugged, sourceInput, 'the unplugged take'),
          voltage(unplugged, driverInput, 'the unplugged take'),
          rateHz,
          true,
        );
  const issues = [pair, open].flatMap((one) => (one === null || one.ok ? [] : one.issues));
  if (!pair.ok || (open !== null && !open.ok)) return failure(...issues);
  const calibrated = open === null ? {} : { unplugged: open.value };
  return measuredDriver({ pair: pair.value, ...calibrated, seriesOhm, leadOhm });
}
