// A plot as data: what is drawn and what it means, not how. The drawing follows from the roles.
import type { PlotAxis } from './axes.ts';

/** What a curve is. Fixed everywhere: the same role always has the same line. */
export type CurveRole =
  | 'measured'
  | 'before'
  | 'predicted'
  | 'second'
  | 'limit'
  /** A limit by heat. */
  | 'heat'
  | 'noise'
  | 'lead-1'
  | 'lead-2'
  | 'lead-3'
  | 'lead-4';

export interface PlotCurve {
  role: CurveRole;
  x: ArrayLike<number>;
  /** As long as x; null or not finite: nothing is drawn there. */
  y: ArrayLike<number | null>;
  /** Stands beside the curve, in its colour. */
  label?: string;
}

/** An area between two curves. */
export interface PlotBand {
  role: 'target' | 'spread';
  x: ArrayLike<number>;
  low: ArrayLike<number | null>;
  high: ArrayLike<number | null>;
  label?: string;
}

/** A stretch of the x axis. */
export interface PlotTint {
  from: number;
  to: number;
}

/** A stretch of the y axis. */
export interface PlotZone {
  from: number;
  to: number;
  label?: string;
  /** Where nothing may go: its label stands inside, at the edge. */
  role?: 'limit';
}

export interface PlotMark {
  x: number;
  y: number;
  role: 'plain' | 'stop';
  label: string;
  /** The curve rises through it: at its right the label stands under the curve. */
  rising?: boolean;
}

export interface PlotSpec {
  /** What is to be seen, in one sentence: the text alternative. */
  sentence: string;
  /** What, where, how many positions, smoothing, level. */
  state: string;
  x: PlotAxis;
  y: PlotAxis;
  /** Stretches that are not played or may not be relied on. */
  tints?: PlotTint[];
  zones?: PlotZone[];
  bands?: PlotBand[];
  curves: PlotCurve[];
  /** Upright dashed lines. */
  verticals?: { x: number; label: string }[];
  marks?: PlotMark[];
}
