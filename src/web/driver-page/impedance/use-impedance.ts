// An impedance sweep on the driver's screen: the files, how they were recorded, and what they come to.
import { useEffect, useState } from 'react';
import type { Issue } from '../../../base/result.ts';
import type { MeasuredJoin } from '../../../drivers/impedance/against-sheet.ts';
import type { ImpedanceReading } from '../../../drivers/impedance/impedance-reading.ts';
import ImpedanceWorker from './impedance.worker.ts?worker';
import type { Circuit, ImpedanceReport } from './impedance-messages.ts';

/** What was typed and dropped; a resistor that is not known yet is undefined. */
export interface ImpedanceSetup {
  files: File[];
  seriesOhm: number | undefined;
  leadOhm: number;
  driverFirst: boolean;
  joined: MeasuredJoin;
}

export type ImpedanceState =
  | { step: 'nothing' | 'reading' }
  | { step: 'read'; reading: ImpedanceReading }
  | { step: 'refused'; issue: Issue };

export interface Impedance {
  setup: ImpedanceSetup;
  state: ImpedanceState;
  set: (change: Partial<ImpedanceSetup>) => void;
}

/** Two recordings of a minute, with every input that a recorder has. */
const BYTES_MAX = 400e6;
/** While somebody still types. */
const WAIT_MS = 250;

function useReading(files: readonly File[], circuit: Circuit | null): ImpedanceState {
  const [state, setState] = useState<ImpedanceState>({ step: 'nothing' });
  const asked = circuit === null ? null : JSON.stringify(circuit);
  useEffect(() => {
    if (files.length === 0 || asked === null) {
      setState({ step: 'nothing' });
      return;
    }
    const refuse = (issue: Issue) => setState({ step: 'refused', issue });
    const large = files.find(({ size }) => size > BYTES_MAX);
    if (large !== undefined) {
      const message = `${large.name} is no short sweep: it has ${Math.round(large.size / 1e6)} MB.`;
      refuse({ code: 'too-long', message, mend: 'Record one sweep of 5 to 20 s.' });
      return;
    }
    setState({ step: 'reading' });
    const worker = new ImpedanceWorker();
    worker.onmessage = ({ data }: MessageEvent<ImpedanceReport>) => {
      if (data.say === 'done') setState({ step: 'read', reading: data.reading });
      else refuse(data.say === 'refused' ? data.issues[0] : { code: 'internal', message: data.message });
      worker.terminate();
    };
    worker.onerror = ({ message }) => refuse({ code: 'internal', message: message || 'The reading broke down.' });
    const timer = setTimeout(() => worker.postMessage({ wavs: files, circuit: JSON.parse(asked) as Circuit }), WAIT_MS);
    return () => {
      clearTimeout(timer);
      worker.terminate();
    };
  }, [files, asked]);
  return state;
}

/** Reads anew whenever a file or a figure changes, in a worker. */
export function useImpedance(): Impedance {
  const [setup, setSetup] = useState<ImpedanceSetup>({
    files: [],
    seriesOhm: undefined,
    leadOhm: 0,
    driverFirst: false,
    joined: 'one',
  });
  const { files, seriesOhm, leadOhm, driverFirst } = setup;
  const state = useReading(files, seriesOhm === undefined ? null : { seriesOhm, leadOhm, driverFirst });
  return { setup, state, set: (change) => setSetup((now) => ({ ...now, ...change })) };
}
