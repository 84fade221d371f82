import { useRef } from 'react';

const keys: [key: string, does: string][] = [
  ['Enter', 'the main action, on the yellow tape'],
  ['Ctrl Z', 'undo what the button at the left names'],
  ['Space', 'play, or stop'],
  ['Esc', 'stop the sound first, then go back'],
  ['Left, Right', 'along a plot: reads its values; on the plan: from cover to cover'],
  ['Tab', 'from one thing to the next, in reading order'],
  ['?', 'this list'],
];

/** The list of keys; `?` opens it. */
export function KeysHelp() {
  const dialog = useRef<HTMLDialogElement>(null);
  return (
    <>
      <button
        type="button"
        className="unseen"
        data-key="keys"
        tabIndex={-1}
        onClick={() => dialog.current?.showModal()}
      >
        List of keys
      </button>
      <dialog ref={dialog} aria-label="Keys">
        <h2>Keys</h2>
        <dl className="keys-list">
          {keys.map(([key, does]) => (
            <div key={key} style={{ display: 'contents' }}>
              <dt>
                <kbd>{key}</kbd>
              </dt>
              <dd>{does}</dd>
            </div>
          ))}
        </dl>
        <button type="button" className="btn" onClick={() => dialog.current?.close()}>
          Back to the work
        </button>
      </dialog>
    </>
  );
}
