// While a take is recorded: where the track is, how loud it is, what is already known to be in order.
import { type ReactNode, useEffect, useState } from 'react';
import { fixedText, type NumberStyle } from '../../charts/number-words.ts';
import type { LevelNow } from '../audio/level-meter.ts';
import { Icon } from '../parts/Icon.tsx';
import { durationText } from '../parts/times.ts';
import { useNumbers } from '../settings.ts';
import { LevelBar, levelWord } from './LevelBar.tsx';
import { nowText, SweepTrack } from './SweepTrack.tsx';
import { progressAxis, stimuliOf } from './track-place.ts';
import type { LiveTake } from './use-take.ts';

/** 20 dB over the noise is the least that a reading accepts. */
const quietEnoughDb = 20;

interface TakeLiveProps {
  live: LiveTake;
  splDb: number | undefined;
  /** The car: its covers and the place that is heard. */
  car: ReactNode;
}

function penText(live: LiveTake, style: NumberStyle): string {
  if (live.step === 'making') return 'making the track';
  if (live.step === 'opening') return 'opening the microphone';
  if (live.step === 'keeping') return 'keeping the take';
  if (live.plays === 'elsewhere') return live.heardHz === null ? 'play the track now' : nowText(live.heardHz, style);
  if (live.place === null) return 'hearing how quiet it is';
  if (live.place.fHz !== null) return nowText(live.place.fHz, style);
  if (live.place.segment?.kind === 'marker') return 'time marks';
  if (live.place.segment?.kind === 'noise') return 'noise';
  return live.share === null ? 'quiet, then time marks' : 'quiet';
}

export function TakeLive({ live, splDb, car }: TakeLiveProps) {
  const style = useNumbers();
  const { level } = live;
  return (
    <>
      <SweepTrack
        axis={progressAxis(live.track)}
        share={live.share}
        now={penText(live, style)}
        envelopeDb={live.envelopeDb}
        style={style}
      />
      <div className="lv">
        <div>
          {level ? <Figures level={level} splDb={splDb} style={style} /> : null}
          {level ? <LevelBar level={level} style={style} /> : null}
          {level ? <Announced level={level} /> : null}
          <ul className="ql">
            {level ? <Clipping level={level} style={style} /> : null}
            {level ? <OverNoise level={level} style={style} /> : null}
            <li className="ok">
              <Icon name="ok" />
              <b>Kept as it comes</b>
              <span className="num">{durationText(live.seconds)}</span>
              <small>on this device, piece by piece</small>
            </li>
            <Stimulus live={live} />
          </ul>
        </div>
        <div>{car}</div>
      </div>
    </>
  );
}

function Figures({ level, splDb, style }: { level: LevelNow; splDb: number | undefined; style: NumberStyle }) {
  const over = level.noiseDbfs === null ? null : level.rmsDbfs - level.noiseDbfs;
  return (
    <div className="figs">
      <div>
        <b>
          {fixedText(level.highestDbfs, 1, style)}
          <span className="u">dBFS</span>
        </b>
        <small>highest so far</small>
      </div>
      <div>
        <b>
          {over === null ? '\u2013' : fixedText(Math.max(0, over), 0, style)}
          <span className="u">dB</span>
        </b>
        <small>over the noise, now</small>
      </div>
      {splDb === undefined ? null : (
        <div>
          <b>
            {fixedText(level.rmsDbfs + splDb, 0, style)}
            <span className="u">dB SPL</span>
          </b>
          <small>at the microphone</small>
        </div>
      )}
    </div>
  );
}

function Clipping({ level, style }: { level: LevelNow; style: NumberStyle }) {
  const clipped = level.clippedSamples > 0;
  const room = fixedText(Math.max(0, -level.highestDbfs), 0, style);
  return (
    <li className={clipped ? 'stop' : 'ok'}>
      <Icon name={clipped ? 'stop' : 'ok'} />
      <b>{clipped ? 'Clipped' : 'Not clipped'}</b>
      <span className="num">{level.clippedSamples} samples</span>
      <small>
        {clipped ? 'turn the microphone\u2019s input down and go again' : `the highest peak leaves ${room} dB of room`}
      </small>
    </li>
  );
}

function OverNoise({ level, style }: { level: LevelNow; style: NumberStyle }) {
  const best = level.noiseDbfs === null ? 0 : level.highestDbfs - 3 - level.noiseDbfs;
  const enough = best >= quietEnoughDb;
  return (
    <li className={enough ? 'ok' : 'note'}>
      <Icon name={enough ? 'ok' : 'note'} />
      <b>{enough ? 'Quiet enough' : 'Not loud enough yet'}</b>
      <span className="num">{fixedText(Math.max(0, best), 0, style)} dB</span>
      <small>{quietEnoughDb} dB is the least we accept</small>
    </li>
  );
}

function Stimulus({ live }: { live: LiveTake }) {
  const all = stimuliOf(live.track).length;
  if (all < 2) return null;
  const at = live.place === null ? 0 : Math.max(0, live.place.stimulus + 1);
  return (
    <li className="note">
      <Icon name="note" />
      <b>Stimulus</b>
      <span className="num">
        {at} of {all}
      </span>
      <small>one after the other</small>
    </li>
  );
}

/** The level as a word, for those who do not see the bar: at most every three seconds. */
function Announced({ level }: { level: LevelNow }) {
  const [word, setWord] = useState('');
  const now = levelWord(level);
  useEffect(() => {
    const later = setTimeout(() => setWord(now), 3000);
    return () => clearTimeout(later);
  }, [now]);
  return (
    <p className="unseen" role="status">
      {word === '' ? '' : `Level: ${word}`}
    </p>
  );
}
