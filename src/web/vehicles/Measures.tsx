// The numbers of a body where they are measured: along it on both sides, and across it.
import type { SteeringHand, VehicleBody } from '../../charts/vehicle/bodies.ts';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import { planLayout } from '../../charts/vehicle/layout.ts';
import { PlanView } from '../plan/PlanView.tsx';

const pxPerM = 66;
const pad = { x: 100, y: 40 };

interface Span {
  name: string;
  fromM: number;
  toM: number;
  side: -1 | 1;
}

/** What the numbers measure, from the nose. */
function spansOf(body: VehicleBody, hand: SteeringHand): Span[] {
  const { dash, cabinEndM } = planLayout(body, hand);
  return [
    { name: 'bonnet', fromM: 0, toM: body.bonnetM, side: -1 },
    { name: 'rake', fromM: body.bonnetM, toM: body.bonnetM + body.rakeM, side: -1 },
    { name: 'rows', fromM: dash[0], toM: cabinEndM, side: -1 },
    { name: 'tail', fromM: cabinEndM, toM: body.lengthM, side: -1 },
    { name: 'front', fromM: 0, toM: body.frontM, side: 1 },
    { name: 'wheelbase', fromM: body.frontM, toM: body.frontM + body.wheelbaseM, side: 1 },
  ];
}

export function Measures({ body, hand }: { body: VehicleBody; hand: SteeringHand }) {
  const drawing = planDrawing(body, { hand, pxPerM, padX: pad.x, padY: pad.y });
  const y = (atM: number) => pad.y + atM * pxPerM;
  const edges = [pad.x, drawing.widthPx - pad.x];
  const below = y(body.lengthM) + 14;
  return (
    <PlanView
      drawing={drawing}
      className="measures"
      label={`${body.name} with its measures: bonnet, rake, rows and tail on the left, front and wheelbase on the right, width below.`}
      stateOf={() => 'off'}
      letters={false}
      places={false}
      over={
        <>
          {spansOf(body, hand).map(({ name, fromM, toM, side }) => {
            const edge = side < 0 ? edges[0] : edges[1];
            const x = edge + side * 22;
            return (
              <g key={name}>
                <path className="aside" d={`M${edge} ${y(fromM)}H${x + side * 4}M${edge} ${y(toM)}H${x + side * 4}`} />
                <path d={`M${x - 4} ${y(fromM)}h8M${x} ${y(fromM)}V${y(toM)}M${x - 4} ${y(toM)}h8`} />
                <text x={x + side * 8} y={(y(fromM) + y(toM)) / 2 + 5} textAnchor={side < 0 ? 'end' : 'start'}>
                  {name}
                </text>
              </g>
            );
          })}
          <path d={`M${edges[0]} ${below - 4}v8M${edges[0]} ${below}H${edges[1]}M${edges[1]} ${below - 4}v8`} />
          <text x={drawing.widthPx / 2} y={below + 18} textAnchor="middle">
            width
          </text>
        </>
      }
    />
  );
}
