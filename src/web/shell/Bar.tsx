// The edge of the bench: undo at the left, one main action at the right, always in the same place.
import type { ReactNode } from 'react';
import { Icon, type IconName } from '../parts/Icon.tsx';

export interface MainAction {
  text: string;
  /** What it causes or how long it takes; what opens it while it waits. */
  small?: string | undefined;
  onPress: () => void;
  /** Striped: it keeps its label, stays in reach and says what it waits for. */
  waits?: boolean;
  icon?: IconName;
}

export interface SecondAction {
  text: string;
  onPress: () => void;
}

export interface UndoAction {
  /** What it takes back. */
  says: string;
  onPress: () => void;
}

export interface BarProps {
  undo?: UndoAction | null | undefined;
  why?: ReactNode;
  seconds?: readonly SecondAction[];
  main?: MainAction;
}

export function Bar({ undo, why, seconds = [], main }: BarProps) {
  return (
    <footer className="bar">
      {undo ? (
        <button className="undo" type="button" data-key="undo" onClick={undo.onPress}>
          <Icon name="undo" />
          <span>
            <b>Undo</b>
            <small>{undo.says}</small>
          </span>
        </button>
      ) : null}
      {why ? <p className="why">{why}</p> : <div className="grow" />}
      {seconds.map(({ text, onPress }) => (
        <button key={text} className="second" type="button" onClick={onPress}>
          {text}
        </button>
      ))}
      {main ? (
        <button
          className={`main${main.waits ? ' waits' : ''}`}
          type="button"
          data-key="main"
          aria-disabled={main.waits ? true : undefined}
          onClick={main.onPress}
        >
          {main.icon ? <Icon name={main.icon} /> : null}
          <span>
            <b>{main.text}</b>
            {main.small ? <small>{main.small}</small> : null}
          </span>
          {main.icon ? null : <Icon name="arrow" />}
        </button>
      ) : null}
    </footer>
  );
}
