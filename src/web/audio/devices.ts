// The microphones and outputs that the browser knows; their names show once one has been allowed.
import { useEffect, useState } from 'react';

export interface Device {
  deviceId: string;
  label: string;
}

export interface Devices {
  inputs: Device[];
  outputs: Device[];
  /** Names are hidden until a microphone has been allowed. */
  named: boolean;
}

async function devicesNow(): Promise<Devices> {
  const all = (await navigator.mediaDevices?.enumerateDevices?.()) ?? [];
  const of = (kind: MediaDeviceKind) =>
    all
      .filter((device) => device.kind === kind && device.deviceId !== '')
      .map(({ deviceId, label }, n) => ({
        deviceId,
        label: label || `${kind === 'audioinput' ? 'Microphone' : 'Output'} ${n + 1}`,
      }));
  return {
    inputs: of('audioinput'),
    outputs: of('audiooutput'),
    named: all.some(({ kind, label }) => kind === 'audioinput' && label !== ''),
  };
}

/** Kept up to date as things are plugged in and out. `ask` changes when names may have become known. */
export function useDevices(ask: unknown): Devices {
  const [devices, setDevices] = useState<Devices>({ inputs: [], outputs: [], named: false });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller says when to look again
  useEffect(() => {
    let shown = true;
    const look = () => void devicesNow().then((found) => (shown ? setDevices(found) : undefined));
    look();
    navigator.mediaDevices?.addEventListener?.('devicechange', look);
    return () => {
      shown = false;
      navigator.mediaDevices?.removeEventListener?.('devicechange', look);
    };
  }, [ask]);
  return devices;
}

/** Why a microphone could not be opened, and what to do, in the installer's words. */
export function microphoneRefusal(error: unknown): { message: string; mend: string } {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError') {
    return {
      message: 'The browser may not use a microphone here.',
      mend: 'Allow it with the sign beside the address, then try again. A recording made elsewhere can be dropped instead.',
    };
  }
  if (name === 'NotFoundError' || name === 'OverconstrainedError') {
    return {
      message: 'The microphone is not there.',
      mend: 'Plug it in and choose it again. A recording made elsewhere can be dropped instead.',
    };
  }
  if (name === 'NotReadableError') {
    return {
      message: 'Another program holds the microphone.',
      mend: 'Close the program that uses it, then try again.',
    };
  }
  if (navigator.mediaDevices === undefined) {
    return {
      message: 'This page may not use a microphone, because it was not opened in a safe way.',
      mend: 'Open it as http://localhost on the computer where the shop runs, or drop a recording instead.',
    };
  }
  return {
    message: `The microphone could not be opened: ${error instanceof Error ? error.message : String(error)}`,
    mend: 'Try another one, or drop a recording instead.',
  };
}
