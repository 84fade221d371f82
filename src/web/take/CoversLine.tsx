// The state of the car, asked once and kept with each take.
import { useState } from 'react';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import type { Command } from '../../job/commands/commands.ts';
import type { CoverState } from '../../job/entry-kinds.ts';
import { CoverStrip } from '../parts/CoverStrip.tsx';
import { CoverButton } from '../plan/CoverButton.tsx';
import { asDriven, coversText, nextCoverState } from '../plan/cover-words.ts';
import { PlanView } from '../plan/PlanView.tsx';
import type { VehiclePlan } from '../plan/vehicle-plan.ts';

interface CoversLineProps {
  plan: VehiclePlan;
  covers: readonly CoverState[];
  wish: (...commands: Command[]) => Promise<boolean>;
}

export function CoversLine({ plan, covers, wish }: CoversLineProps) {
  const unknown = covers.length === 0;
  const [open, setOpen] = useState(unknown);
  const drawing = planDrawing(plan.body, { hand: plan.hand, pxPerM: 62, padX: 26, padY: 4 });
  const stateOf = (id: string) => covers.find(({ cover }) => cover === id)?.state;
  const set = (changed: readonly CoverState[]) =>
    wish({
      command: 'changeCovers',
      covers: plan.layout.covers.map(({ id }) => ({
        cover: id,
        state: changed.find(({ cover }) => cover === id)?.state ?? stateOf(id) ?? 'fastened',
      })),
    });
  const press = (id: string) => void set([{ cover: id, state: nextCoverState(stateOf(id)) }]);
  const words = asDriven(covers)
    ? 'All covers are fastened: this is the car the customer drives.'
    : `${coversText(covers)[0].toUpperCase()}${coversText(covers).slice(1)}: not the car the customer drives.`;
  return (
    <section className={`covers${open ? ' open' : ''}`} aria-label="Covers">
      <div className="line">
        {unknown ? (
          <p>
            <b>Which covers are off?</b> Asked once; every take keeps the answer.
          </p>
        ) : (
          <p>
            <CoverStrip covers={covers} /> {words}
          </p>
        )}
        {unknown ? (
          <button type="button" className="btn" onClick={() => void set([]).then((done) => done && setOpen(false))}>
            All are fastened
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
    </section>
  );
}
