// The level of the microphone: noise, good range and too hot by texture and word, never by colour alone.
import './level-bar.css';
import { fixedText, type NumberStyle } from '../../charts/number-words.ts';
import type { LevelNow } from '../audio/level-meter.ts';

const lowestDb = -60;
const goodFromDb = -40;
const goodToDb = -6;
const hotDb = -3;

const place = (db: number): number => Math.min(100, Math.max(0, ((db - lowestDb) / -lowestDb) * 100));
const percent = (db: number): string => `${place(db)}%`;

/** One word for a level: announced to those who do not see the bar. */
export function levelWord({ peakDbfs, clippedSamples }: LevelNow): 'too hot' | 'good' | 'too quiet' {
  if (clippedSamples > 0 || peakDbfs > hotDb) return 'too hot';
  return peakDbfs < goodFromDb ? 'too quiet' : 'good';
}

export function LevelBar({ level, style }: { level: LevelNow; style: NumberStyle }) {
  const noise = level.noiseDbfs ?? lowestDb;
  const words = `Level now ${fixedText(level.peakDbfs, 0, style)} dBFS, highest ${fixedText(level.highestDbfs, 1, style)}`;
  return (
    <div className="level">
      <div className="meter" role="img" aria-label={words}>
        <i className="good" style={{ left: percent(goodFromDb), width: `${place(goodToDb) - place(goodFromDb)}%` }} />
        <i className="hot" style={{ left: percent(hotDb) }} />
        <i className="floor" style={{ width: percent(noise) }} />
        <i className="now" style={{ width: percent(level.peakDbfs) }} />
        <i className="peak" style={{ left: percent(level.highestDbfs) }} />
      </div>
      <div className="marks" aria-hidden="true">
        {[-60, -50, -40, -30, -20, -10, 0].map((db) => (
          <span key={db} className={db === -60 ? 'first' : db === 0 ? 'last' : ''} style={{ left: percent(db) }}>
            {db === 0 ? '0 dBFS' : fixedText(db, 0, style)}
          </span>
        ))}
        {place(noise) > 4 ? (
          <span className="w first" style={{ left: `${Math.max(0, place(noise) / 2 - 3)}%` }}>
            noise
          </span>
        ) : null}
        <span className="w" style={{ left: percent((goodFromDb + goodToDb) / 2) }}>
          good range
        </span>
        <span className="w last" style={{ left: '100%' }}>
          too hot
        </span>
      </div>
    </div>
  );
}
