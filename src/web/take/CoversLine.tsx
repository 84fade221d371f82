// How the covers stand: asked once, and kept with each take.
import { useState } from 'react';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import type { Command } from '../../job/commands/commands.ts';
import type { JobView } from '../api-client.ts';
import { CoverStrip } from '../parts/CoverStrip.tsx';
import { CoverButton } from '../plan/CoverButton.tsx';
import { asDriven, coversText } from '../plan/cover-words.ts';
import { useCoversAsked } from '../plan/covers-asked.ts';
import { FastenAsked } from '../plan/FastenAsked.tsx';
import { PlanView } from '../plan/PlanView.tsx';
import type { VehiclePlan } from '../plan/vehicle-plan.ts';

interface CoversLineProps {
  view: JobView;
  plan: VehiclePlan;
  wish: (...commands: Command[]) => Promise<boolean>;
}

export function CoversLine({ view, plan, wish }: CoversLineProps) {
  const { covers } = view.job;
  const asked = useCoversAsked(plan, covers, wish);
  const { answer, stateOf, press, give } = asked;
  const [open, setOpen] = useState(answer !== null);
  const drawing = planDrawing(plan.body, { hand: plan.hand, pxPerM: 62, padX: 26, padY: 4 });
  const words = asDriven(covers)
    ? 'All covers are fastened: this is the car the customer drives.'
    : `${coversText(covers)[0].toUpperCase()}${coversText(covers).slice(1)}: not the car the customer drives.`;
  return (
    <section className={`covers${open ? ' open' : ''}`} aria-label="Covers">
      <div className="line">
        {answer ? (
          <p>
            <b>Which covers are off?</b> Press each that is off or rests. Asked once; every take keeps the answer.
          </p>
        ) : (
          <p>
            <CoverStrip covers={covers} /> {words}
          </p>
        )}
        {answer ? (
          <button type="button" className="btn" onClick={() => void give().then((done) => done && setOpen(false))}>
            <span>
              {answer.text}
              <small>{answer.small}</small>
            </span>
          </button>
        ) : (
          <button type="button" className="btn" aria-expanded={open} onClick={() => setOpen(!open)}>
            {open ? 'That is how it is' : 'Change'}
          </button>
        )}
      </div>
      {open ? (
        <div className="asked">
          <PlanView
            drawing={drawing}
            label="Plan view, nose at the top. A press on a cover changes its state."
            stateOf={(id) => stateOf(id) ?? 'unknown'}
            onCover={press}
            places={false}
          />
          <ul>
            {plan.layout.covers.map(({ id, name }) => (
              <li key={id}>
                <span className="ltr" aria-hidden="true">
                  {id}
                </span>
                <span>{name}</span>
                <CoverButton name={name} state={stateOf(id)} onPress={() => press(id)} />
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      <FastenAsked
        view={view}
        covers={asked}
        wish={wish}
        nameOf={(id) => plan.layout.covers.find((cover) => cover.id === id)?.name ?? `Cover ${id}`}
      />
    </section>
  );
}
