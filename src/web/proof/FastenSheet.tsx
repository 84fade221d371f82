// Before a cover is fastened over what is not proven: what that is, the shortest way to prove it, and who passes over it.
import './proof.css';
import { useEffect, useMemo, useRef, useState } from 'react';
import { unprovenBehind } from '../../job/hold-points/behind-cover.ts';
import type { HoldPoint } from '../../job/hold-points/hold-points.ts';
import { Icon } from '../parts/Icon.tsx';
import { ScrollBox } from '../parts/ScrollBox.tsx';
import { TextField } from '../parts/TextField.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { FastenPlainly, type FastenSheetProps } from '../plan/FastenPlainly.tsx';
import { goTo } from '../router.ts';
import { changeSettings, useSettings } from '../settings.ts';
import { countWords } from '../shop/job-words.ts';
import { tagOf } from './PointRow.tsx';
import { coverName } from './proof-model.ts';
import { TestList } from './TestList.tsx';

export function FastenSheet(props: FastenSheetProps) {
  const { view, cover } = props;
  const behind = useMemo(() => unprovenBehind(view.job, cover), [view, cover]);
  // As it was when it was asked: while the sheet is up, another device may prove or change something.
  const [asked] = useState(behind.open.length > 0);
  if (!asked && behind.open.length === 0) return <FastenPlainly {...props} />;
  return <Sheet {...props} {...behind} />;
}

/** Names of the covers that hide any of these points. */
const namesOf = (points: readonly HoldPoint[]) =>
  new Map(points.flatMap(({ covers }) => covers.map((one) => [one.cover, coverName(one)] as const)));

function Sheet({
  view,
  cover,
  name,
  wish,
  onClose,
  open,
  shortest,
}: FastenSheetProps & ReturnType<typeof unprovenBehind>) {
  const settings = useSettings();
  const dialog = useRef<HTMLDialogElement>(null);
  const [who, setWho] = useState(settings.who);
  const [why, setWhy] = useState('');
  const [shown, setShown] = useState(false);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    const element = dialog.current;
    if (element === null || element.open) return;
    element.showModal();
    element.querySelector<HTMLElement>('h2')?.focus();
  }, []);
  const missing = (text: string, says: string) => (shown && text.trim() === '' ? says : undefined);
  const planned = open[0]?.covers.find(({ letter, cover: id }) => letter === cover || id === cover)?.cover ?? null;
  const say = async (command: Parameters<typeof wish>[0]) => {
    setBusy(true);
    await wish(command);
    onClose();
  };
  const now = view.job.covers.find((known) => known.cover === cover)?.state;
  return (
    <dialog ref={dialog} className="fasten" aria-label={`Fasten ${name}`} onCancel={onClose} onClose={onClose}>
      <header>
        <h2 tabIndex={-1}>
          {name} hides {countWords(open.length, 'unproven point', 'unproven points').toLowerCase()}.
        </h2>
      </header>
      <ScrollBox className="body" label="What is unproven, and how to prove it">
        <ul className="unproven">
          {open.map(({ id, name: called, says, state }) => (
            <li key={id}>
              <Icon name={tagOf[state]} />
              <b>{called}</b>
              <small>{trueMinus(says)}</small>
            </li>
          ))}
        </ul>
        <section aria-label="The shortest list">
          <h3 className="h2s">
            {countWords(shortest.tests.length, 'test clears', 'tests clear')} {open.length === 1 ? 'it' : 'them'}
          </h3>
          <TestList shortest={shortest} coverNames={namesOf(open)} />
        </section>
        <form
          className="anyway"
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            setShown(true);
            const passOver = { name: who.trim(), why: why.trim() };
            if (passOver.name === '' || passOver.why === '') return;
            if (settings.who === '') changeSettings({ who: passOver.name });
            void say({ command: 'changeCovers', covers: [{ cover, state: 'fastened' }], passOver });
          }}
        >
          <p>Fastened over them, the cover keeps this list with a name and a reason, in the journal too.</p>
          <TextField
            label="Who answers for it"
            wrong={missing(who, 'Give a name or initials.')}
            value={who}
            maxLength={80}
            onChange={setWho}
          />
          <TextField
            label="Why it may be"
            wrong={missing(why, 'Say why; it stands in the journal.')}
            value={why}
            maxLength={2000}
            onChange={setWhy}
          />
          <button type="submit" className="btn" disabled={busy}>
            Fasten anyway
          </button>
        </form>
      </ScrollBox>
      <footer className="ways">
        <button
          type="button"
          className="btn keep"
          onClick={() => goTo({ page: 'hold-points', job: view.job.id, cover: planned })}
        >
          Prove them
        </button>
        <button type="button" className="btn" onClick={onClose}>
          Leave it {now ?? 'as it is'}
        </button>
        {now === 'resting' ? (
          <button
            type="button"
            className="btn"
            disabled={busy}
            onClick={() => void say({ command: 'changeCovers', covers: [{ cover, state: 'off' }] })}
          >
            Take it off
          </button>
        ) : null}
      </footer>
    </dialog>
  );
}
