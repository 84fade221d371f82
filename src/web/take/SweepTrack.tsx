// The progress of a recording: its axis is the frequency axis, and what was heard is drawn behind the pen.
import './sweep-track.css';
import { frequencyAxis } from '../../charts/axes.ts';
import { frequencyText, type NumberStyle } from '../../charts/number-words.ts';
import { durationText } from '../parts/times.ts';
import type { ProgressAxis } from './track-place.ts';

export const envelopeBins = 320;

interface SweepTrackProps {
  axis: ProgressAxis;
  /** 0 .. 1 of the axis; null before the stimulus has begun. */
  share: number | null;
  /** Beside the pen: the frequency now, or what else is going on. */
  now: string;
  /** Highest sample heard per bin of the axis, dB re full scale; 0 bins: nothing there yet. */
  envelopeDb: Float32Array;
  style: NumberStyle;
  /** Where it broke off; the pen is then a tear. */
  brokenAt?: number | null;
}

function axisMarks(axis: ProgressAxis, style: NumberStyle): { share: number; text: string }[] {
  if (axis.kind === 'frequency') {
    return frequencyAxis(axis.from, axis.to, style).ticks.map(({ value, text }) => ({
      share: Math.log(value / axis.from) / Math.log(axis.to / axis.from),
      text,
    }));
  }
  const step = [1, 2, 5, 10, 20, 30, 60, 120].find((s) => axis.to / s <= 9) ?? 300;
  return Array.from({ length: Math.floor(axis.to / step) + 1 }, (_, n) => ({
    share: (n * step) / axis.to,
    text: n === 0 ? '0 s' : durationText(n * step).replace(' s', ''),
  }));
}

/** The envelope as one closed line around the middle, in a box of 1000 by 100. */
function envelopePath(envelopeDb: Float32Array): string {
  const up: string[] = [];
  const down: string[] = [];
  for (let bin = 0; bin < envelopeDb.length; bin++) {
    if (envelopeDb[bin] === 0) continue;
    const x = ((bin + 0.5) / envelopeDb.length) * 1000;
    const half = Math.max(1.5, Math.min(46, ((envelopeDb[bin] + 66) / 66) * 46));
    up.push(`${x.toFixed(1)} ${(50 - half).toFixed(1)}`);
    down.push(`${x.toFixed(1)} ${(50 + half).toFixed(1)}`);
  }
  return up.length === 0 ? '' : `M${up.join('L')}L${down.reverse().join('L')}Z`;
}

export function SweepTrack({ axis, share, now, envelopeDb, style, brokenAt = null }: SweepTrackProps) {
  const at = brokenAt ?? share ?? 0;
  const percent = `${at * 100}%`;
  const flips = at > 0.72;
  return (
    <div
      className="sweep"
      role="progressbar"
      aria-valuenow={Math.round(at * 100)}
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuetext={now}
      aria-label={axis.kind === 'frequency' ? 'Progress, as frequency' : 'Progress, in seconds'}
    >
      <div className="tr">
        <i className="dn" style={{ width: percent }} />
        <svg viewBox="0 0 1000 100" preserveAspectRatio="none" aria-hidden="true" focusable="false">
          <path d={envelopePath(envelopeDb)} />
        </svg>
        {axisMarks(axis, style).map((mark) => (
          <u key={mark.share} style={{ left: `${mark.share * 100}%` }} />
        ))}
        {brokenAt === null ? (
          <i className="pen" style={{ left: percent }} />
        ) : (
          <svg
            className="br"
            style={{ left: percent }}
            viewBox="0 0 14 70"
            preserveAspectRatio="none"
            aria-hidden="true"
          >
            <path d="M8 0L3 14 11 26 4 40 12 54 6 70" />
          </svg>
        )}
        <span className={`fr1${flips ? ' flip' : ''}${brokenAt === null ? '' : ' bad'}`} style={{ left: percent }}>
          {now}
        </span>
      </div>
      <div className="tk" aria-hidden="true">
        {axisMarks(axis, style).map((mark, n, all) => (
          <span
            key={mark.share}
            className={n === 0 && mark.share < 0.03 ? 'first' : n === all.length - 1 && mark.share > 0.97 ? 'last' : ''}
            style={{ left: `${mark.share * 100}%` }}
          >
            {mark.text}
          </span>
        ))}
      </div>
    </div>
  );
}

export const nowText = (fHz: number, style: NumberStyle): string => `${frequencyText(fHz, style)} now`;
