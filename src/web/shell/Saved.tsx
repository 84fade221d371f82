import { Icon } from '../parts/Icon.tsx';
import { clockText } from '../parts/times.ts';
import { type SavedStatus, useSavedStatus } from '../shop/saved-status.ts';

function lines({ hereWhen, shopWhen, waiting, awaySince, fault }: SavedStatus): [string, string] {
  const here = hereWhen === null ? 'Nothing waits here' : `Saved here ${clockText(hereWhen)}`;
  if (fault !== null) return ['Not saved here', fault];
  if (awaySince !== null) return [here, `Shop copy waits, ${clockText(awaySince)}`];
  if (waiting > 0) return [here, `Shop copy: ${waiting} on the way`];
  return [here, shopWhen === null ? 'Asking the shop' : `Shop copy ${clockText(shopWhen)}`];
}

/** Two lines that say where everything is. There is no save button, because there is nothing to forget. */
export function Saved() {
  const status = useSavedStatus();
  const [first, second] = lines(status);
  const bad = status.fault !== null || status.awaySince !== null;
  return (
    <div className={`saved${bad ? ' bad' : ''}`} role="status">
      <span>
        <Icon name={bad ? 'fix' : 'check'} />
      </span>
      <span>
        {first}
        <br />
        {second}
      </span>
    </div>
  );
}
