// The vehicle from above. Covers are buttons where the person may change them; arrows move between them by geometry.
import { type KeyboardEvent, type ReactNode, useRef } from 'react';
import type { DrawnCover, DrawnPlace, PlanDrawing } from '../../charts/vehicle/plan-shapes.ts';

export type ShownCoverState = 'off' | 'resting' | 'fastened' | 'unknown' | 'ghost' | 'pressed';

interface PlanViewProps {
  drawing: PlanDrawing;
  /** What a screen reader says; empty beside words that say it already. */
  label: string;
  stateOf: (cover: string) => ShownCoverState;
  /** What a screen reader says of a cover after its name and state. */
  coverWords?: (cover: string) => string;
  onCover?: ((cover: string) => void) | undefined;
  /** Unproven points behind a cover: the count stands beside its letter. */
  openOf?: (cover: string) => number;
  letters?: boolean;
  places?: boolean;
  chosenPlace?: string | null;
  /** Drawn over everything: leaders to callouts. */
  over?: ReactNode;
  className?: string;
  /** In place of the drawing's own frame. */
  viewBox?: string;
}

const keyWay: Record<string, [number, number]> = {
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
};

/** The nearest cover in a direction: distance along counts once, distance aside counts twice. */
function nextCover(covers: readonly DrawnCover[], from: DrawnCover, [dx, dy]: [number, number]): DrawnCover | null {
  let best: { cover: DrawnCover; cost: number } | null = null;
  for (const cover of covers) {
    const x = cover.badge.x - from.badge.x;
    const y = cover.badge.y - from.badge.y;
    const along = x * dx + y * dy;
    if (cover === from || along <= 0) continue;
    const cost = along + 2 * Math.abs(x * dy + y * dx);
    if (!best || cost < best.cost) best = { cover, cost };
  }
  return best?.cover ?? null;
}

export function PlanView(props: PlanViewProps) {
  const {
    drawing,
    label,
    stateOf,
    coverWords,
    onCover,
    openOf,
    letters = true,
    places = true,
    over,
    className = '',
  } = props;
  const svg = useRef<SVGSVGElement>(null);
  const onKey = (cover: DrawnCover) => (event: KeyboardEvent) => {
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      onCover?.(cover.id);
    }
    const way = keyWay[event.key];
    const next = way ? nextCover(drawing.covers, cover, way) : null;
    if (!next) return;
    event.preventDefault();
    svg.current?.querySelector<SVGGElement>(`[data-cover="${next.id}"]`)?.focus();
  };
  return (
    <svg
      ref={svg}
      className={`van ${className}`}
      viewBox={props.viewBox ?? `0 0 ${drawing.widthPx} ${drawing.heightPx}`}
      width={drawing.widthPx}
      height={drawing.heightPx}
      role={label === '' ? undefined : onCover ? 'group' : 'img'}
      aria-label={label === '' ? undefined : label}
      aria-hidden={label === '' ? true : undefined}
    >
      {drawing.shapes.map(({ role, d }) => (
        <path key={`${role}${d.slice(0, 24)}`} className={role} d={d} />
      ))}
      {drawing.covers.map((cover) => (
        <Cover
          key={cover.id}
          cover={cover}
          state={stateOf(cover.id)}
          words={coverWords?.(cover.id) ?? openWords(openOf?.(cover.id) ?? 0)}
          onPress={onCover}
          onKey={onKey(cover)}
        />
      ))}
      {places
        ? drawing.places.map((place) => <Place key={place.id} place={place} chosen={place.id === props.chosenPlace} />)
        : null}
      {over ? <g className="callout">{over}</g> : null}
      {letters
        ? drawing.covers.map(({ id, badge }) => (
            <SeenOnly key={id} className="bdg">
              <circle cx={badge.x} cy={badge.y} r="9.5" />
              <text x={badge.x} y={badge.y + 4.5}>
                {id}
              </text>
            </SeenOnly>
          ))
        : null}
      {openOf
        ? drawing.covers
            .filter(({ id }) => openOf(id) > 0)
            .map(({ id, badge, side }) => ({ id, y: badge.y, x: countX(badge.x, side, drawing.widthPx) }))
            .map(({ id, x, y }) => (
              <SeenOnly key={id} className="open-count">
                <rect x={x - 8} y={y - 9} width="16" height="18" rx="2" />
                <text x={x} y={y + 4.5}>
                  {openOf(id)}
                </text>
              </SeenOnly>
            ))
        : null}
    </svg>
  );
}

/** Towards the middle of the car, but away from it where a cover lies in the middle, with its drivers. */
function countX(x: number, side: number, widthPx: number): number {
  const central = Math.abs(x - widthPx / 2) < 56;
  return central ? x + side * 20 : x - side * 20;
}

const openWords = (open: number) => (open === 0 ? '' : `${open} ${open === 1 ? 'hold point' : 'hold points'} open`);

/** What is for the eye: covers say the same in words. */
function SeenOnly({ className, children }: { className?: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a g takes no focus
    <g className={className} aria-hidden="true">
      {children}
    </g>
  );
}

interface CoverProps {
  cover: DrawnCover;
  state: ShownCoverState;
  words: string;
  onPress: ((cover: string) => void) | undefined;
  onKey: (event: KeyboardEvent) => void;
}

function Cover({ cover, state, words, onPress, onKey }: CoverProps) {
  const inside = (
    <>
      <path className="hit" d={cover.d} />
      <path className="pl" d={cover.d} />
      {state === 'fastened' ? (
        <g className="scr">
          {cover.screws.map(({ x, y }) => (
            <circle key={`${x} ${y}`} cx={x} cy={y} r="1.6" />
          ))}
        </g>
      ) : null}
    </>
  );
  if (!onPress) return <g className={`cv ${state}`}>{inside}</g>;
  const label = `${cover.name}: ${state === 'unknown' ? 'not said' : state}${words ? `, ${words}` : ''}`;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      className={`cv ${state}`}
      data-cover={cover.id}
      role="button"
      tabIndex={0}
      aria-label={label}
      onClick={() => onPress(cover.id)}
      onKeyDown={onKey}
    >
      {inside}
    </g>
  );
}

function Place({ place, chosen }: { place: DrawnPlace; chosen: boolean }) {
  const { x, y, radiusPx, label, leader, id } = place;
  return (
    <SeenOnly>
      <g className={`drv${chosen ? ' chosen' : ''}`}>
        <circle cx={x} cy={y} r={radiusPx} />
        <circle cx={x} cy={y} r={radiusPx * 0.55} />
        <circle cx={x} cy={y} r="1.3" className="cone" />
      </g>
      <g className="plc">
        {leader ? <path d={leader} /> : null}
        <text x={label.x} y={label.y} textAnchor={label.anchor}>
          {id}
        </text>
      </g>
    </SeenOnly>
  );
}
