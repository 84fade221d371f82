// Who fastened a cover over what was not proven then, and why.
import { whenText } from '../parts/times.ts';

interface PassedOverProps {
  over: { name: string; why: string; when: string; holdPoints: readonly string[] };
}

export function PassedOver({ over: { name, why, when, holdPoints } }: PassedOverProps) {
  const count = `${holdPoints.length} unproven ${holdPoints.length === 1 ? 'point' : 'points'}`;
  return (
    <p className="passed-over">
      Fastened over {count} by <b>{name}</b>, {whenText(when, new Date())}: {why}
    </p>
  );
}
