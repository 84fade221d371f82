// What a person reads after a track was made: what it is, what to mind, what to do next.
import { basename } from 'node:path';
import type { TrackCaution } from '../signals/track-design/cautions.ts';
import type { TrackKind } from '../signals/track-design/request.ts';
import type { TextStyle } from './output.ts';
import { twoColumns, wrapped } from './wrap.ts';

/** What `track` answers. */
export interface TrackMade {
  schema: 'kickpanel.track-made/1';
  kind: TrackKind;
  file: string;
  descriptionFile: string;
  /** Whether a file of either name was there before. */
  replaced: boolean;
  durationS: number;
  rateHz: number;
  channels: number;
  bits: string;
  /** The highest peak in the file. */
  levelDbfs: number;
  /** Where the stimuli play. */
  side: string;
  markerSide: string;
  /** Absent without markers. */
  code?: number;
  /** The same stimuli as the description lists, in words. */
  stimuli: string;
  cautions: TrackCaution[];
}

/** Where a recording of the track goes. */
function nextStep(made: TrackMade): string {
  const track = `--track ${basename(made.descriptionFile)}`;
  const wholeTake = 'Record from before it starts until after it ends, with the recorder left alone.';
  switch (made.kind) {
    case 'steps':
      return `${wholeTake} Then: kickpanel push REC.wav ${track}`;
    case 'near':
      return `Record it once at each driver, 3 to 5 cm away. Then: kickpanel nearwalk --plan PLAN.json ${track} PLACE=REC.wav ...`;
    case 'bursts':
      return 'Play it with one output open at a time and write down which place sounds. Then: kickpanel walk FILE.json';
    case 'ladder':
      return made.stimuli.includes('rising')
        ? `Leave the volume alone while it plays. ${wholeTake} Then: kickpanel read REC.wav ${track}`
        : `Turn the source up one step in each rest. ${wholeTake} Then: kickpanel read REC.wav ${track}`;
    default:
      return `${wholeTake} Then: kickpanel read REC.wav ${track}`;
  }
}

/** A duration as a person says it. */
function lengthText(seconds: number): string {
  const rounded = Math.round(seconds);
  if (seconds < 60) return `${seconds.toFixed(1)} s`;
  return `${Math.floor(rounded / 60)} min ${rounded % 60} s`;
}

export function trackSummary(made: TrackMade, style: TextStyle): string {
  const { width } = style;
  const markers =
    made.code === undefined
      ? 'none'
      : `${made.markerSide === 'both' ? 'both sides' : made.markerSide}, code ${made.code}`;
  const bits = made.bits === '32f' ? '32-bit float' : `${made.bits} bit`;
  const again = made.replaced ? ' What stood there before is replaced.' : '';
  return `${[
    ...wrapped(`${made.file} is made, and ${basename(made.descriptionFile)} beside it describes it.${again}`, width),
    '',
    ...twoColumns(
      [
        ['Plays', made.stimuli],
        ['Length', `${lengthText(made.durationS)}, ${made.rateHz} Hz, ${bits}, stereo`],
        ['Peak', `${made.levelDbfs} dBFS`],
        ['Markers', markers],
      ],
      width,
    ),
    '',
    'Before it plays:',
    ...twoColumns(
      made.cautions.map(({ message }) => ['-', message] as [string, string]),
      width,
    ),
    '',
    ...wrapped(`Next: ${nextStep(made)}`, width),
  ].join('\n')}\n`;
}
