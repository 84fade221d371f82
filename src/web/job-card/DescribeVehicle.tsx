// A job without a plan view: choose a body, or go on without one.
import { useState } from 'react';
import type { BodyKind, SteeringHand } from '../../charts/vehicle/bodies.ts';
import type { Command } from '../../job/commands/commands.ts';
import type { JobView } from '../api-client.ts';
import { BodyChoice } from '../new-job/BodyChoice.tsx';
import { HandSwitch } from '../plan/HandSwitch.tsx';

interface DescribeVehicleProps {
  view: JobView;
  wish: (...commands: Command[]) => Promise<boolean>;
}

export function DescribeVehicle({ view, wish }: DescribeVehicleProps) {
  const [hand, setHand] = useState<SteeringHand>(view.job.vehicle.steering ?? 'right');
  const choose = (bodyType: BodyKind | 'other') =>
    void wish({
      command: 'describeVehicle',
      bodyType,
      ...(bodyType === 'other' ? {} : { steering: hand }),
    });
  const other = view.job.vehicle.bodyType === 'other';
  return (
    <section aria-label="Body of the vehicle">
      <div className="tops">
        <p className="said">
          {other
            ? 'This job has no plan view. A body gives it one.'
            : 'Choose the body: it gives covers and places their names.'}
        </p>
        <HandSwitch hand={hand} onChange={setHand} />
      </div>
      <BodyChoice job={view.job.id} value={other ? 'other' : null} hand={hand} onChange={choose} />
    </section>
  );
}
