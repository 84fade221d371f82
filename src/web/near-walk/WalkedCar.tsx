// The car from above with the places of the walk: filled as far as they are told, by shape and colour.
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import type { Severity } from '../parts/Severity.tsx';
import { PlanView } from '../plan/PlanView.tsx';
import type { VehiclePlan } from '../plan/vehicle-plan.ts';

interface WalkedCarProps {
  plan: VehiclePlan;
  /** By place; null where nothing is told yet. */
  verdicts: ReadonlyMap<string, Severity | null>;
}

export function WalkedCar({ plan, verdicts }: WalkedCarProps) {
  const drawing = planDrawing(plan.body, { hand: plan.hand, pxPerM: 66, padX: 24, padY: 4 });
  const left = 18;
  return (
    <PlanView
      className="walked"
      drawing={drawing}
      label=""
      stateOf={() => 'ghost'}
      letters={false}
      places={false}
      over={drawing.places
        .filter(({ id }) => verdicts.has(id))
        .map(({ id, x, y }) => {
          const at = Math.min(drawing.widthPx - left, Math.max(left, x));
          return (
            <g key={id} className={`spot-told ${verdicts.get(id) ?? 'not-yet'}`}>
              <circle cx={at} cy={y} r="16" />
              <text x={at} y={y + 5}>
                {id}
              </text>
            </g>
          );
        })}
    />
  );
}
