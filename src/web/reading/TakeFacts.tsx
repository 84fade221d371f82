// The facts of a take: what it is, and what the reading found beside its curves.
import { fixedText } from '../../charts/number-words.ts';
import type { CoverState } from '../../job/entry-kinds.ts';
import type { Reading } from '../../measurement/reading.ts';
import { Facts } from '../parts/Facts.tsx';
import { whenText } from '../parts/times.ts';
import { coversText } from '../plan/cover-words.ts';
import { useNumbers } from '../settings.ts';
import { arrivalText, bandEdges, medianSnrDb, pairText, polarityText } from './words.ts';

export interface TakeDescribed {
  label: string;
  when: string | number;
  who: string;
  track: string;
  recorder: string | undefined;
  covers: readonly CoverState[];
  calibration: string;
}

export function TakeFacts({ take, reading }: { take: TakeDescribed; reading: Reading | null }) {
  const style = useNumbers();
  const quality = reading?.quality;
  const edges = reading?.band ? bandEdges(reading.band, style) : null;
  const snr = reading ? medianSnrDb(reading) : null;
  const drift = quality?.driftPpm;
  return (
    <Facts
      label="Facts of this take"
      rows={[
        ['Take', take.label],
        ['Recorded', `${whenText(take.when, new Date())}, ${take.who}`],
        ['Test track', take.track],
        ['Recorder', take.recorder],
        ['Level', take.calibration],
        ['Covers', coversText(take.covers)],
        [
          'Form',
          quality
            ? `${quality.rateHz / 1000} kHz, ${quality.bits} bit, input ${quality.input} of ${quality.inputs}`
            : null,
        ],
        ['Highest', quality?.peakDbfs == null ? null : `${fixedText(quality.peakDbfs, 1, style)} dBFS`],
        ['Over the noise', snr === null ? null : `${fixedText(snr, 0, style)} dB`],
        ['Clock drift', drift === undefined ? null : `${fixedText(drift, 0, style)} ppm, corrected`],
        [
          'Arrival',
          reading?.arrivalS === undefined ? null : arrivalText(reading.arrivalS, reading.arrivalSigmaS, style),
        ],
        [
          'Left after right',
          reading?.leftMinusRightS === undefined
            ? null
            : arrivalText(reading.leftMinusRightS, reading.leftMinusRightSigmaS, style),
        ],
        ['Left and right', reading?.pairSign === undefined ? null : pairText(reading.pairSign)],
        ['Polarity', reading?.polarity ? polarityText(reading.polarity) : null],
        ['Plays from', edges?.low],
        ['Plays to', edges?.high],
      ]}
    />
  );
}
