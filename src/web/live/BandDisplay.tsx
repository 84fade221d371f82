// The bands on the screen: axes that stand still, and a canvas for what moves, drawn once a frame of the screen.
import './band-display.css';
import { type RefObject, useEffect, useImperativeHandle, useRef, useState } from 'react';
import { fixedText, type NumberStyle } from '../../charts/number-words.ts';
import { useSettings } from '../settings.ts';
import { type BandsShown, coloursOf, type LevelRange, levelRange, paintBands } from './band-painter.ts';

export interface BandHandle {
  show: (bands: BandsShown) => void;
  /** Frames drawn so far. */
  frames: () => number;
}

interface BandDisplayProps {
  /** The names of the bands. */
  fHz: Float32Array;
  handle: RefObject<BandHandle | null>;
  /** What it says, for those who do not see it. */
  says: string;
  unit: string;
}

/** Average and spread move slowly, and are painted no more often than this. */
const paintEveryMs = 120;
/** How quickly a dot follows, s: quick enough to move a microphone by, slow enough to be followed by eye. */
const easeS = 0.05;

const strongHz = [50, 100, 200, 500, 1000, 2000, 5000, 10_000];

/** Every dot one step nearer to its level. Only transforms change, so nothing is laid out or painted for it. */
function moveDots(
  parent: HTMLElement | null,
  shown: Float64Array,
  momentDb: Float64Array,
  share: number,
  { fromDb, toDb }: LevelRange,
  height: number,
): void {
  if (!parent) return;
  for (let b = 0; b < shown.length; b++) {
    const to = momentDb[b];
    const next = shown[b] < -139 ? to : shown[b] + share * (to - shown[b]);
    if (Math.abs(next - shown[b]) < 0.02) continue;
    shown[b] = next;
    const y = Math.min(height + 20, ((toDb - next) / (toDb - fromDb)) * height);
    (parent.children[b] as HTMLElement).style.transform = `translateY(${y.toFixed(1)}px)`;
  }
}

function bandText(nominalHz: number, style: NumberStyle): string {
  const value = Number(nominalHz.toPrecision(4));
  const text = value >= 1000 ? `${value / 1000}k` : String(value);
  return text.replace('.', style.decimal);
}

export function BandDisplay({ fHz, handle, says, unit }: BandDisplayProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const style = useSettings();
  const latest = useRef<BandsShown | null>(null);
  const drawn = useRef(0);
  const [range, setRange] = useState<LevelRange>({ fromDb: -90, toDb: -40 });
  const rangeNow = useRef<LevelRange | null>(null);
  useImperativeHandle(handle, () => ({
    show(bands) {
      latest.current = bands;
      const next = levelRange(bands.averageDb, rangeNow.current);
      if (next !== rangeNow.current) {
        rangeNow.current = next;
        setRange(next);
      }
    },
    frames: () => drawn.current,
  }));
  const dots = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the colours follow the theme
  useEffect(() => {
    const element = canvas.current;
    const pen = element?.getContext('2d');
    if (!element || !pen) return;
    const colours = coloursOf(element);
    const shown = new Float64Array(fHz.length).fill(-140);
    let size = { width: 0, height: 0 };
    let paintedMs = 0;
    const resize = () => {
      const box = element.getBoundingClientRect();
      // A canvas of another size is empty, so it is painted with the next frame.
      paintedMs = 0;
      const scale = Math.min(2, devicePixelRatio || 1);
      size = { width: box.width, height: box.height };
      element.width = Math.round(box.width * scale);
      element.height = Math.round(box.height * scale);
      pen.setTransform(scale, 0, 0, scale, 0, 0);
    };
    resize();
    const observer = new ResizeObserver(resize);
    observer.observe(element);
    let frame = 0;
    let lastMs = performance.now();
    const paint = (nowMs: number) => {
      frame = requestAnimationFrame(paint);
      const bands = latest.current;
      const levels = rangeNow.current;
      if (!bands || !levels) return;
      const share = 1 - Math.exp(-(nowMs - lastMs) / 1000 / easeS);
      lastMs = nowMs;
      moveDots(dots.current, shown, bands.momentDb, share, levels, size.height);
      drawn.current++;
      if (nowMs - paintedMs < paintEveryMs) return;
      paintedMs = nowMs;
      paintBands(pen, size, bands, levels, colours);
    };
    frame = requestAnimationFrame(paint);
    return () => {
      cancelAnimationFrame(frame);
      observer.disconnect();
    };
  }, [fHz, style.theme]);
  const ticks = Array.from({ length: 5 }, (_, n) => range.toDb - 10 * (n + 1));
  const place = (db: number) => `${((range.toDb - db) / (range.toDb - range.fromDb)) * 100}%`;
  return (
    <div className="abx">
      <div className="yy" aria-hidden="true">
        {ticks.map((db, n) => (
          <span key={db} style={{ top: place(db) }}>
            {fixedText(db, 0, style)}
            {n === 0 ? ` ${unit}` : ''}
          </span>
        ))}
      </div>
      <div className="aba" role="img" aria-label={says} style={{ backgroundSize: `${100 / fHz.length}% 100%` }}>
        {ticks.map((db) => (
          <u key={db} style={{ top: place(db) }} />
        ))}
        <canvas ref={canvas} />
        <div className="dots" ref={dots} style={{ gridTemplateColumns: `repeat(${fHz.length}, minmax(0, 1fr))` }}>
          {Array.from(fHz, (f) => (
            <i key={f} />
          ))}
        </div>
      </div>
      <div className="abl" aria-hidden="true" style={{ gridTemplateColumns: `repeat(${fHz.length}, minmax(0, 1fr))` }}>
        {Array.from(fHz, (f) => {
          const strong = strongHz.includes(f);
          const decade = [100, 1000, 10_000].includes(f);
          return (
            <span key={f} className={`${strong ? 'm' : ''}${decade ? ' k' : ''}`}>
              {bandText(f, style)}
            </span>
          );
        })}
      </div>
    </div>
  );
}
