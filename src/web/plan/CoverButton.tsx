import { Icon } from '../parts/Icon.tsx';
import type { KnownCoverState } from './cover-words.ts';

interface CoverButtonProps {
  name: string;
  state: KnownCoverState | undefined;
  onPress: () => void;
}

/** The state of a cover as a button: a press takes it one step on. */
export function CoverButton({ name, state, onPress }: CoverButtonProps) {
  const words = state ?? 'not said';
  return (
    <button type="button" className="cst" aria-label={`${name}: ${words}. Change`} onClick={onPress}>
      <span className="cov">
        <Icon name={`cover-${state ?? 'unknown'}`} />
        <b>{words}</b>
      </span>
    </button>
  );
}
