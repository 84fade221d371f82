// Room before the cone and behind the magnet.
import { fixedText } from '../../charts/number-words.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { EditedPart } from '../part-editor/PartEditor.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { useNumbers } from '../settings.ts';
import { type CutList, roomBefore } from './box-model.ts';

interface RoomProps {
  driver: PartOf<'driver'>;
  list: CutList | null;
  onEdit: (part: EditedPart) => void;
}

export function Room({ driver, list, onEdit }: RoomProps) {
  const style = useNumbers();
  const room = roomBefore(driver);
  const behind = list === null || driver.depthMm === undefined ? null : list.insideDepthMm - driver.depthMm;
  return (
    <div className="room">
      {room === null ? (
        <p>
          <SeverityMark severity="note">not known</SeverityMark> how much is free before the cone.{' '}
          <button type="button" className="linky" onClick={() => onEdit({ kind: 'driver', id: driver.id })}>
            Type the gap
          </button>
        </p>
      ) : (
        <p>
          <SeverityMark severity={room.verdict as 'ok' | 'fix' | 'stop'}>
            {room.verdict === 'ok' ? 'clears' : room.verdict === 'fix' ? 'close' : 'strikes'}
          </SeverityMark>{' '}
          {fixedText(room.gapMm, 0, style)} mm before the cone, {fixedText(Math.max(0, room.freeMm), 0, style)} mm left
          at its full stroke.
        </p>
      )}
      {behind === null ? null : (
        <p>
          <SeverityMark severity={behind < 0 ? 'stop' : behind < 20 ? 'fix' : 'ok'}>
            {behind < 0 ? 'too deep' : behind < 20 ? 'close' : 'fits'}
          </SeverityMark>{' '}
          {fixedText(Math.abs(behind), 0, style)} mm {behind < 0 ? 'missing' : 'left'} behind the magnet.
        </p>
      )}
    </div>
  );
}
