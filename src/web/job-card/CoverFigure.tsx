// The car in the middle, a callout for each cover beside it, a leader from one to the other.
import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import { placesBehind } from '../../charts/vehicle/layout.ts';
import type { DrawnCover } from '../../charts/vehicle/plan-shapes.ts';
import type { JobView } from '../api-client.ts';
import type { CoversAsked } from '../plan/covers-asked.ts';
import { PlanView } from '../plan/PlanView.tsx';
import type { VehiclePlan } from '../plan/vehicle-plan.ts';
import type { KnownProof } from '../proof/use-proof.ts';
import { Callout } from './Callout.tsx';

const frame = { widthPx: 320, heightPx: 480 };

interface CoverFigureProps {
  view: JobView;
  plan: VehiclePlan;
  covers: CoversAsked;
  /** Null until it is known. */
  proof: KnownProof | null;
}

/** The car as large as the frame holds it. */
function framed({ body, hand }: VehiclePlan) {
  const pxPerM = Math.min((frame.heightPx - 12) / body.lengthM, (frame.widthPx - 108) / body.widthM);
  return planDrawing(body, {
    hand,
    pxPerM,
    padX: (frame.widthPx - body.widthM * pxPerM) / 2,
    padY: (frame.heightPx - body.lengthM * pxPerM) / 2,
  });
}

/** From the middle of a callout, px from the top of the drawing, to the cover's letter. */
function leaderPath(cover: DrawnCover, from: number): string {
  const left = cover.side < 0;
  const edge = left ? 0 : frame.widthPx;
  const bend = left ? 22 : frame.widthPx - 22;
  const turn = left ? 36 : frame.widthPx - 36;
  return `M${edge} ${from}H${bend}L${turn} ${cover.badge.y}H${cover.badge.x}`;
}

export function CoverFigure({ view, plan, covers: { stateOf, press }, proof }: CoverFigureProps) {
  const figure = useRef<HTMLDivElement>(null);
  const middles = useCalloutMiddles(figure);
  const drawing = framed(plan);
  const bySide = ([-1, 1] as const).map((side) => drawing.covers.filter((cover) => cover.side === side));
  const takesAt = (name: string) => view.job.takes.filter(({ kept, place }) => kept && place === name).length;
  const behind = (id: string) => {
    const ids = placesBehind(plan.layout, id);
    return plan.layout.places.filter((place) => ids.includes(place.id));
  };
  const proofOf = (id: string) => {
    const report = proof?.covers.find(({ letter, cover }) => letter === id || cover === id);
    if (proof === null || report === undefined) return undefined;
    const open = report.open.flatMap((point) => proof.open.find((one) => one.id === point) ?? []);
    return { planned: report.cover, open, proven: report.closed.length };
  };
  const leaders = bySide.flatMap((covers) =>
    covers.map((cover, n) => (
      <path key={cover.id} d={leaderPath(cover, middles[cover.id] ?? ((n + 0.5) / covers.length) * frame.heightPx)} />
    )),
  );
  const callouts = (covers: readonly DrawnCover[]) =>
    covers.map((cover) => (
      <Callout
        key={cover.id}
        job={view.job.id}
        cover={cover}
        state={stateOf(cover.id)}
        behind={behind(cover.id)}
        takesAt={(place) => takesAt(place.name)}
        onPress={() => press(cover.id)}
        proof={proofOf(cover.id)}
        passedOver={view.job.covers.find((known) => known.cover === cover.id)?.passedOver}
      />
    ));
  return (
    <div className="fig" ref={figure}>
      <div className="col l">{callouts(bySide[0])}</div>
      <PlanView
        drawing={drawing}
        label={`${plan.body.name}, plan view, nose at the top. A press on a cover takes it off, sets it in place or fastens it.`}
        stateOf={(id) => stateOf(id) ?? 'unknown'}
        onCover={press}
        openOf={(id) => proofOf(id)?.open.length ?? 0}
        over={leaders}
      />
      <div className="col r">{callouts(bySide[1])}</div>
    </div>
  );
}

/** Middle of each callout on the drawing's own scale, by the cover's letter: callouts are as high as what they say. */
function useCalloutMiddles(figure: RefObject<HTMLDivElement | null>): Record<string, number> {
  const [middles, setMiddles] = useState<Record<string, number>>({});
  useLayoutEffect(() => {
    const element = figure.current;
    if (!element) return;
    const measure = () => {
      const drawn = element.querySelector('.van')?.getBoundingClientRect();
      if (!drawn || drawn.height === 0) return;
      const perPx = frame.heightPx / drawn.height;
      const found = [...element.querySelectorAll<HTMLElement>('[data-callout]')].map((callout) => {
        const box = callout.getBoundingClientRect();
        return [callout.dataset.callout as string, Math.round((box.top + box.height / 2 - drawn.top) * perPx)] as const;
      });
      setMiddles((before) =>
        JSON.stringify(before) === JSON.stringify(Object.fromEntries(found)) ? before : Object.fromEntries(found),
      );
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [figure]);
  return middles;
}
