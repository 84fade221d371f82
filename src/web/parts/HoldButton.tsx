// For what cannot be undone: a press held for a second, with the reason in words.
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';

const holdMs = 1000;

export function HoldButton({ text, onHeld }: { text: string; onHeld: () => void }) {
  const [holding, setHolding] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const release = () => {
    clearTimeout(timer.current);
    timer.current = undefined;
    setHolding(false);
  };
  useEffect(() => () => clearTimeout(timer.current), []);
  const press = () => {
    if (timer.current !== undefined) return;
    setHolding(true);
    timer.current = setTimeout(() => {
      release();
      onHeld();
    }, holdMs);
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    if (!event.repeat) press();
  };
  return (
    <button
      type="button"
      className={`btn hold${holding ? ' holding' : ''}`}
      onPointerDown={press}
      onPointerUp={release}
      onPointerLeave={release}
      onKeyDown={onKey}
      onKeyUp={release}
      onBlur={release}
      onContextMenu={(event) => event.preventDefault()}
    >
      {text}
      <small>hold for a second</small>
    </button>
  );
}
