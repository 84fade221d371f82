// A car of the practice bay as a job: its plan as wishes, a near track, and the takes that its microphone would bring home.
import { renderNearTakes, nearWalk as simulatedWalk } from '../../src/practice/near-field/render-near-takes.ts';
import type { TrackDescription } from '../../src/signals/track.ts';
import { designTrack } from '../../src/signals/track-design/design-track.ts';
import { writeWav } from '../../src/signals/wav/write-wav.ts';

export interface PracticeJob {
  /** Of places, in the order of the plan: P1, P2, ... */
  places: string[];
  /** `changePlan` wish that plans the car. */
  wish: { command: 'changePlan'; changes: { part: string; id: string; value: object }[] };
  track: TrackDescription;
  /** By the place's id. */
  wavs: Map<string, Uint8Array>;
  /** The same takes one after the other in one recording. */
  long: (of: readonly string[]) => Uint8Array;
  faults: string[];
}

const inputsOf = ({ in1, in2 }: { in1: number; in2: number }) => [
  ...(in1 === 0 ? [] : ['DSP/left']),
  ...(in2 === 0 ? [] : ['DSP/right']),
];

/** @param faults  how many are planted, or which by name */
export function practiceJob(seed: number, faults: number | readonly string[]): PracticeJob {
  const walk = simulatedWalk(seed, faults);
  const designed = designTrack({ kind: 'near', rateHz: 48_000, stimulusS: 1 });
  if (!designed.ok) throw new Error(designed.issues[0].message);
  const track = designed.value;
  const takes = renderNearTakes({ walk, track });
  const { outputs } = walk.plan;
  const parts: [part: string, value: { id: string }][] = [
    ['processor', { id: 'DSP', ...{ inputs: ['left', 'right'].map((id) => ({ id, kind: 'line' })) } }],
    ['amplifier', { id: 'A', ...{ channels: outputs.map((_, n) => ({ id: String(n + 1) })) } }],
    ...outputs.flatMap(({ place, kind, polarity, highPass, lowPass, ...gains }, n): [string, { id: string }][] => {
      const [id, output, amplifier] = [n + 1, `DSP/${n + 1}`, `A/${n + 1}`];
      const kinds = { coaxial: 'full-range' } as Record<string, string>;
      const channel = { id: `C${id}`, output, amplifier, inputs: inputsOf(gains), highPass, lowPass, polarity };
      const coils = { network: { s: [`D${id}/1`] }, polarity: 1 };
      return [
        ['place', { id: `P${id}`, ...{ name: place } }],
        ['driver', { id: `D${id}`, ...{ kind: kinds[kind] ?? kind, place: `P${id}` } }],
        ['channel', channel],
        ['load', { id: `N${id}`, ...{ amplifier }, ...coils }],
        ['lead', { id: `L${id}`, ...{ kind: 'speaker', from: amplifier, to: `D${id}` } }],
      ];
    }),
  ];
  const wavOf = (samples: Float64Array): Uint8Array =>
    writeWav({ channels: [samples], rateHz: takes[0].rateHz, format: '24' });
  const idOf = (name: string): string => `P${outputs.findIndex(({ place }) => place === name) + 1}`;
  return {
    places: outputs.map((_, n) => `P${n + 1}`),
    wish: {
      command: 'changePlan',
      changes: parts.map(([part, value]) => ({ part, id: value.id, value })),
    },
    track,
    wavs: new Map(takes.map(({ place, samples }) => [idOf(place), wavOf(samples)])),
    long: (of) =>
      wavOf(Float64Array.from(of.flatMap((id) => [...(takes.find(({ place }) => idOf(place) === id)?.samples ?? [])]))),
    faults: walk.truth.faults,
  };
}
