// One body as a plan: its covers lettered and pressable, its places numbered, and a button that takes it.
import { useState } from 'react';
import { type BodyKind, type SteeringHand, vehicleBodies } from '../../charts/vehicle/bodies.ts';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import { planLayout } from '../../charts/vehicle/layout.ts';
import { Icon } from '../parts/Icon.tsx';
import { PlanView } from '../plan/PlanView.tsx';
import type { SizeText } from '../plan/size-text.ts';
import { countsText, coverSentence } from './body-facts.ts';

interface BodyDrawnProps {
  kind: BodyKind;
  hand: SteeringHand;
  taken: boolean;
  size: SizeText;
  onTake: () => void;
}

export function BodyDrawn({ kind, hand, taken, size, onTake }: BodyDrawnProps) {
  const [pressed, setPressed] = useState<string | null>(null);
  const body = vehicleBodies[kind];
  const layout = planLayout(body, hand);
  const said = pressed === null ? null : coverSentence(layout, pressed);
  return (
    <section className={taken ? 'taken' : ''} aria-label={body.name}>
      <PlanView
        drawing={planDrawing(body, { hand, pxPerM: 90, padX: 46, padY: 4 })}
        label={`${body.name}, plan view, nose at the top. A press on a cover says what it is.`}
        stateOf={(id) => (id === pressed ? 'pressed' : 'off')}
        coverWords={(id) => coverSentence(layout, id)?.behind ?? ''}
        onCover={(id) => setPressed(id === pressed ? null : id)}
      />
      <button type="button" className="taking" aria-pressed={taken} onClick={onTake}>
        <b>
          {taken ? <Icon name="check" /> : null}
          {body.name}
        </b>
        <small>
          {size.text(body.lengthM)} × {size.text(body.widthM)} {size.unit}, wheelbase {size.text(body.wheelbaseM)}
        </small>
        <small>{countsText(layout)}</small>
      </button>
      <p className="named" aria-live="polite">
        {said === null ? (
          'Press a cover: it says what it is.'
        ) : (
          <>
            <b>
              {pressed}, {said.name}.
            </b>{' '}
            {said.behind}
          </>
        )}
      </p>
    </section>
  );
}
