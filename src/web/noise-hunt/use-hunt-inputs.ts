// What a person gives to the hunt: takes, revs, answers; revs and answers outlive a reload.
import { useState } from 'react';
import type { Hunted, TakeRole } from '../../measurement/noise-hunt/hunt-step.ts';
import type { SpeedSource } from '../../measurement/noise-hunt/order-tracking.ts';
import type { TestName, Tried } from '../../measurement/noise-hunt/tried.ts';
import { useTyped } from '../parts/use-typed.ts';
import { useMicrophones } from '../shop/microphones.ts';
import type { HuntInputs, HuntTake } from './use-hunt.ts';
import { type NoiseRecording, useNoiseRecorder } from './use-noise-recorder.ts';

interface TypedHunt {
  idleRpm: string;
  revsRpm: string;
  rpmFrom: SpeedSource;
  /** Id of the calibrated microphone; empty: levels are relative. */
  microphone: string;
  tried: Tried;
  heard: Hunted | '';
}

const none: Tried = {};
const fresh: TypedHunt = { idleRpm: '', revsRpm: '', rpmFrom: 'counter', microphone: '', tried: none, heard: '' };

/** Turns a minute as typed; undefined where nothing usable was. */
export function rpmOf(typed: string): number | undefined {
  const value = /^\d{3,5}$/.test(typed.trim()) ? Number(typed) : 0;
  return value >= 100 && value <= 20_000 ? value : undefined;
}

export interface HuntInput {
  hunted: HuntInputs;
  typed: TypedHunt;
  recorder: NoiseRecording;
  microphones: { id: string; name: string }[];
  give: (role: TakeRole, take: HuntTake | null) => void;
  typeRpm: (of: 'idleRpm' | 'revsRpm', text: string) => void;
  readRpmFrom: (source: SpeedSource) => void;
  chooseMicrophone: (id: string) => void;
  answer: (test: TestName, answer: boolean | number | undefined) => void;
  hear: (heard: Hunted) => void;
  startAnew: () => void;
}

export function useHuntInputs(job: string): HuntInput {
  const [takes, setTakes] = useState<HuntInputs['takes']>({});
  const [typed, type, forget] = useTyped<TypedHunt>(`noise.${job}`, fresh);
  const microphones = (useMicrophones().value ?? []).flatMap(({ microphone, name, fullScaleSplDb }) =>
    fullScaleSplDb === undefined ? [] : [{ id: microphone, name, fullScaleSplDb }],
  );
  const give = (role: TakeRole, take: HuntTake | null) =>
    setTakes((now) => {
      const { [role]: _, ...others } = now;
      return take === null ? others : { ...others, [role]: take };
    });
  const recorder = useNoiseRecorder(give);
  return {
    hunted: {
      takes,
      rpm: { idle: rpmOf(typed.idleRpm), revs: rpmOf(typed.revsRpm) },
      rpmFrom: typed.rpmFrom,
      fullScaleSplDb: microphones.find(({ id }) => id === typed.microphone)?.fullScaleSplDb,
      tried: typed.tried,
      heard: typed.heard === '' ? undefined : typed.heard,
    },
    typed,
    recorder,
    microphones,
    give,
    typeRpm: (of, text) => type({ ...typed, [of]: text }),
    readRpmFrom: (rpmFrom) => type({ ...typed, rpmFrom }),
    chooseMicrophone: (microphone) => type({ ...typed, microphone }),
    answer(test, answer) {
      const { [test]: _, ...others } = typed.tried;
      type({ ...typed, tried: answer === undefined ? others : { ...others, [test]: answer } });
    },
    hear: (heard) => type({ ...typed, heard }),
    startAnew() {
      setTakes({});
      forget();
    },
  };
}
