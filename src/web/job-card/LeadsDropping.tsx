// From the collar on the loom down to the car: time and place are one drawing.
import { stageNames } from '../shell/stages.ts';

const leads = [0, 1, 2, 3, 4, 5];
/** Place and height of the lane along the strip's lower edge, px. */
const laneTop = 14;
const heightPx = 96;
/** Half the spread of the leads at the car's nose, in hundredths of the window. */
const spread = 1.4;

/** One lead: out of the collar, along the lane, down to the nose. x counts hundredths of the window's width. */
function leadPath(lead: number, collar: number): string {
  const lane = laneTop + lead * 2.2;
  const nose = 50 + (lead - 2.5) * ((2 * spread) / 5);
  const way = Math.sign(50 - collar);
  if (way === 0)
    return `M${50 + (lead - 2.5) * 0.18} 0V30C${50 + (lead - 2.5) * 0.18} 60 ${nose} 62 ${nose} ${heightPx}`;
  // The outermost lead of the lane turns last, so that none crosses another.
  const start = collar + (lead - 2.5) * 0.17 * -way;
  const turn = 50 + (lead - 2.5) * 0.17 * -way;
  const end = 50 + (lead - 2.5) * ((2 * spread) / 5) * -way;
  return [
    `M${start} 10C${start} ${lane} ${start + way * 0.4} ${lane} ${start + way * 1.2} ${lane}`,
    `L${turn - way * 1.4} ${lane}C${turn} ${lane} ${turn} ${lane + 8} ${turn} ${lane + 14}`,
    `C${turn} 66 ${end} 62 ${end} ${heightPx}`,
  ].join('');
}

export function LeadsDropping({ from }: { from: number }) {
  const collar = ((from + 0.5) / stageNames.length) * 100;
  return (
    <svg
      className="drop"
      viewBox={`0 0 100 ${heightPx}`}
      preserveAspectRatio="none"
      aria-hidden="true"
      focusable="false"
    >
      {leads.map((lead) => (
        <path key={lead} d={leadPath(lead, collar)} stroke={`var(--lead-${lead + 1})`} />
      ))}
    </svg>
  );
}
