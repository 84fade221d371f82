// The takes and answers of a hunt on the screen, and what they come to.
import { useEffect, useRef, useState } from 'react';
import type { Issue } from '../../base/result.ts';
import type { Hunted, TakeRole } from '../../measurement/noise-hunt/hunt-step.ts';
import type { NoiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import type { SpeedSource } from '../../measurement/noise-hunt/order-tracking.ts';
import type { Tried } from '../../measurement/noise-hunt/tried.ts';
import HuntWorker from './hunt.worker.ts?worker';
import type { HuntReport, HuntRequest, TakeCurve } from './hunt-messages.ts';

export interface HuntTake {
  name: string;
  wav: Blob;
}

export interface HuntInputs {
  takes: Partial<Record<TakeRole, HuntTake>>;
  rpm: { idle: number | undefined; revs: number | undefined };
  rpmFrom: SpeedSource;
  fullScaleSplDb: number | undefined;
  tried: Tried;
  heard: Hunted | undefined;
}

export interface HuntState {
  hunt: NoiseHunt | null;
  curves: TakeCurve[];
  issues: Issue[];
  busy: boolean;
}

const nothing: HuntState = { hunt: null, curves: [], issues: [], busy: false };

/** Hunts anew whenever a take or an answer changes, in a worker. */
export function useHunt(inputs: HuntInputs): HuntState {
  const [state, setState] = useState<HuntState>(nothing);
  const worker = useRef<Worker | null>(null);
  const latest = useRef(0);
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  const { takes, rpm, rpmFrom, fullScaleSplDb, heard } = inputs;
  const tried = JSON.stringify(inputs.tried);
  useEffect(() => {
    latest.current++;
    if (Object.keys(takes).length === 0) {
      setState(nothing);
      return;
    }
    if (worker.current === null) {
      worker.current = new HuntWorker();
      worker.current.onmessage = ({ data }: MessageEvent<HuntReport>) => {
        if (data.request !== latest.current) return;
        if (data.say === 'done') setState({ hunt: data.hunt, curves: data.curves, issues: [], busy: false });
        else if (data.say === 'refused') setState({ ...nothing, issues: data.issues });
        else setState({ ...nothing, issues: [{ code: 'internal', message: data.message }] });
      };
      worker.current.onerror = ({ message }) =>
        setState({ ...nothing, issues: [{ code: 'internal', message: message || 'The hunt broke down.' }] });
    }
    setState((now) => ({ ...now, busy: true }));
    const request: HuntRequest = {
      request: latest.current,
      takes: Object.fromEntries(
        (Object.entries(takes) as [TakeRole, HuntTake][]).map(([role, { wav }]) => [
          role,
          { wav, rpm: role === 'idle' ? rpm.idle : role === 'revs' ? rpm.revs : undefined },
        ]),
      ),
      options: { rpmFrom, fullScaleSplDb, heard, tried: JSON.parse(tried) as Tried },
    };
    worker.current.postMessage(request);
  }, [takes, rpm.idle, rpm.revs, rpmFrom, fullScaleSplDb, heard, tried]);
  return state;
}
