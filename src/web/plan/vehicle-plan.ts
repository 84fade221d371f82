// The plan of a job's vehicle, if its body has one.
import {
  type BodyKind,
  bodyKinds,
  type SteeringHand,
  type VehicleBody,
  vehicleBodies,
} from '../../charts/vehicle/bodies.ts';
import { type PlanLayout, planLayout } from '../../charts/vehicle/layout.ts';
import type { JobView } from '../api-client.ts';

export interface VehiclePlan {
  body: VehicleBody;
  hand: SteeringHand;
  layout: PlanLayout;
}

export function isBodyKind(bodyType: string | undefined): bodyType is BodyKind {
  return bodyKinds.some((kind) => kind === bodyType);
}

export function vehiclePlan({ bodyType, steering }: JobView['job']['vehicle']): VehiclePlan | null {
  if (!isBodyKind(bodyType)) return null;
  const body = vehicleBodies[bodyType];
  const hand = steering ?? 'right';
  return { body, hand, layout: planLayout(body, hand) };
}
