// The box cut open: panels, cone at rest and at its stroke, what stands before it, and the bolts through the floor.
import { fixedText, significantText } from '../../charts/number-words.ts';
import { useNumbers } from '../settings.ts';
import type { CutList, Room } from './box-model.ts';

interface BoxSectionProps {
  list: CutList;
  widthMm: number;
  panelMm: number;
  coneMm: number;
  depthMm: number;
  strokeMm: number;
  room: Room | null;
  netL: number;
  forwardN: number;
  fixings: number | undefined;
  vented: boolean;
}

const widthPx = 430;
const floorPx = 268;

export function BoxSection(props: BoxSectionProps) {
  const style = useNumbers();
  const { list, widthMm, panelMm, coneMm, depthMm, strokeMm, room, netL, forwardN, fixings, vented } = props;
  const scale = Math.min(250 / widthMm, 190 / list.depthMm);
  const [w, h, panel] = [widthMm * scale, list.depthMm * scale, Math.max(4, panelMm * scale)];
  const [left, top] = [40, floorPx - h];
  const middle = left + w / 2;
  const cone = Math.min(w * 0.8, coneMm * scale);
  const deep = Math.min(h - 2 * panel, depthMm * scale);
  const lift = Math.min(46, Math.max(6, strokeMm * scale));
  const magnet = Math.max(18, cone * 0.42);
  const coneAt = (y: number) =>
    `M${middle - cone / 2} ${y}L${middle - magnet / 2} ${y + deep * 0.55}H${middle + magnet / 2}L${middle + cone / 2} ${y}`;
  const gapTop = room === null ? null : Math.max(12, top - room.gapMm * scale);
  // Nothing is drawn above the cone at its stroke, or what stands before it.
  const above = Math.max(0, Math.min(gapTop ?? top, top - lift) - 10);
  const words = `Section: box ${fixedText(widthMm, 0, style)} by ${fixedText(list.depthMm, 0, style)} millimetres, ${significantText(netL, 3, style)} litre net, cone facing out with ${fixedText(strokeMm, 1, style)} millimetres of travel${room === null ? '' : `, ${fixedText(room.gapMm, 0, style)} millimetres before it`}`;
  return (
    <svg className="sec" viewBox={`0 ${above} ${widthPx} ${312 - above}`} role="img" aria-label={words}>
      <path className="fl" d={`M10 268H${widthPx - 100}`} />
      <rect className="wd" x={left} y={top} width={w} height={h} />
      <rect className="air" x={left + panel} y={top + panel} width={w - 2 * panel} height={h - 2 * panel} />
      {vented ? <rect className="air" x={left + w - panel - 26} y={top - 1} width={16} height={h * 0.55} /> : null}
      <path className="cone" d={coneAt(top)} />
      <path className="cone out" d={coneAt(top - lift)} />
      <rect className="mag" x={middle - magnet / 2} y={top + deep * 0.55} width={magnet} height={deep * 0.4} />
      {gapTop === null ? null : (
        <>
          <path className="fl" d={`M${left - 10} ${gapTop}H${left + w + 10}`} />
          <path
            className="dim"
            d={`M${left + w + 16} ${gapTop}V${top}M${left + w + 11} ${gapTop}h10M${left + w + 11} ${top}h10`}
          />
          <text x={left + w + 26} y={(gapTop + top) / 2 + 5}>
            <tspan className="b">{fixedText(room?.gapMm ?? 0, 0, style)} mm</tspan>
          </text>
        </>
      )}
      <text x={left + panel + 8} y={264 - panel}>
        {significantText(netL, 3, style)} L net
      </text>
      {[left + panel / 2 + 3, left + w - panel / 2 - 3].map((x) => (
        <path key={x} className="bolt" d={`M${x} ${268 - panel}V284M${x - 14} 284h28`} />
      ))}
      <path className="fa" d={`M${left + w + 70} ${top + h / 2}H${left + w + 24}`} />
      <path className="fah" d={`M${left + w + 12} ${top + h / 2}l16 -9v18z`} />
      <text x={left + w + 26} y={top + h / 2 + 24}>
        <tspan className="b">{fixedText(forwardN / 1000, 1, style)} kN</tspan>
      </text>
      <text x={left + w + 26} y={top + h / 2 + 41}>
        at 20 g
      </text>
      <text x={left} y={306}>
        {fixings === undefined ? 'fixings not said' : `${fixings} bolts into structure, to plates below`}
      </text>
    </svg>
  );
}
