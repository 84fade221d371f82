// Which cover of the drawn vehicle a cover of the plan is. The drawing knows covers by letters, and so does whoever presses
// on one; a plan may call them by words.
import { bodyKinds, type SteeringHand, vehicleBodies } from '../../charts/vehicle/bodies.ts';
import { planLayout } from '../../charts/vehicle/layout.ts';
import type { PartOf } from '../../plan/plan.ts';

/** What is known of the vehicle. */
export interface DrawnVehicle {
  body?: string | undefined;
  /** The right one where nobody said, as the drawing has it. */
  steering?: SteeringHand | undefined;
}

/** Ids that templates give, and what the drawings call the same panel. */
const drawnNames: Record<string, readonly string[]> = {
  'dash-top': ['Dash top'],
  'door-left': ['Left door card', 'Left front door'],
  'door-right': ['Right door card', 'Right front door'],
  'rear-door-left': ['Left rear door', 'Left quarter'],
  'rear-door-right': ['Right rear door', 'Right quarter'],
  'boot-floor': ['Boot floor', 'Load floor'],
  'parcel-shelf': ['Parcel shelf'],
  'seat-base': ["Driver's seat base"],
};

const kickPanel = (hand: SteeringHand) => `kick-${hand}`;

/**
 * Letters by the id of the cover: the one that the plan says, else the one that the drawing of this body gives to the same
 * panel. A cover that no drawing shows has none, nor one whose letter another cover of the plan has.
 */
export function coverLetters(covers: readonly PartOf<'cover'>[], vehicle: DrawnVehicle = {}): Map<string, string> {
  const letters = new Map<string, string>();
  for (const { id, letter } of covers) if (letter !== undefined) letters.set(id, letter);
  const kind = bodyKinds.find((known) => known === vehicle.body);
  if (kind === undefined || covers.every(({ id }) => letters.has(id))) return letters;
  const hand = vehicle.steering ?? 'right';
  const drawn = planLayout(vehicleBodies[kind], hand).covers;
  const taken = new Set(letters.values());
  for (const { id, name } of covers) {
    if (letters.has(id)) continue;
    const names = [
      ...(drawnNames[id] ?? []),
      ...(id === kickPanel(hand) ? ['Kick panel'] : []),
      ...(name ? [name] : []),
    ];
    const letter = drawn.find((cover) => names.includes(cover.name))?.id;
    if (letter === undefined || taken.has(letter) || covers.some((other) => other.id === letter)) continue;
    letters.set(id, letter);
    taken.add(letter);
  }
  return letters;
}
