// The last step of a job, taken back from the bar of any of its screens.
import type { JobView } from '../api-client.ts';
import type { BarProps } from '../shell/Bar.tsx';
import type { Wishing } from './use-job.ts';

/** What undo does on a screen of a job, or that there is nothing to undo. */
export function undoAct({ undoable }: JobView['job'], wish: Wishing['wish']): BarProps['undo'] {
  return undoable && { says: undoable.says, onPress: () => void wish({ command: 'undo', entry: undoable.entry }) };
}
