// One part in a sheet over the screen: typed, chosen or taken from the shelf, kept with one press.
import './part-editor.css';
import { useEffect, useRef, useState } from 'react';
import { type Part, type PartKind, type Plan, partSchemas } from '../../plan/plan.ts';
import type { JobView } from '../api-client.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import type { Route } from '../route.ts';
import { Link } from '../shell/Link.tsx';
import { useWish } from '../shop/use-job.ts';
import { kindWords } from './field-forms.ts';
import { type Draft, PartForm } from './PartForm.tsx';
import { freshPartId } from './part-facts.ts';
import { Shelf } from './Shelf.tsx';

/** Which part is edited; an id that the plan has not is a new part. */
export interface EditedPart {
  kind: PartKind;
  id: string;
}

interface PartEditorProps {
  view: JobView;
  edited: EditedPart;
  onClose: () => void;
}

const idForm = /^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$/;

function partOf(plan: Plan, { kind, id }: EditedPart): Part | undefined {
  return (plan[kind] as Part[]).find((known) => known.id === id);
}

/** Other screens that say more about a part. */
function moreAbout(job: string, { kind, id }: EditedPart): { to: Route; words: string }[] {
  if (kind === 'driver') {
    return [
      { to: { page: 'driver', job, driver: id }, words: 'Limits of this driver' },
      { to: { page: 'box', job, driver: id }, words: 'Its box' },
    ];
  }
  return kind === 'load' ? [{ to: { page: 'coils', job, load: id }, words: 'Coil wiring, with proof' }] : [];
}

export function PartEditor({ view, edited, onClose }: PartEditorProps) {
  const plan = view.job.plan.parts;
  const dialog = useRef<HTMLDialogElement>(null);
  const known = partOf(plan, edited);
  const [draft, setDraft] = useState<Draft>(() => ({ ...(known ?? { id: edited.id }) }));
  const wrong = useRef(new Map<string, string>());
  const [refusal, setRefusal] = useState<string | null>(null);
  // Another sheet from the shelf is typed into fresh inputs.
  const [sheet, setSheet] = useState(0);
  const { wish, busy, error } = useWish(view.job.id);
  useEffect(() => {
    const element = dialog.current;
    if (element === null || element.open) return;
    element.showModal();
    // The name is read out first, and no keyboard comes up before a field is pressed.
    element.querySelector<HTMLElement>('h2')?.focus();
  }, []);
  const [one] = kindWords[edited.kind];
  const save = async () => {
    if (wrong.current.size > 0) {
      setRefusal(`One field cannot be kept. ${[...wrong.current.values()][0]}`);
      dialog.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
      return;
    }
    if (!idForm.test(draft.id)) return setRefusal('An id is 1 to 32 letters, digits, "-" or "_".');
    const parsed = partSchemas[edited.kind].safeParse(draft);
    if (!parsed.success) {
      const [{ path, message }] = parsed.error.issues;
      return setRefusal(`This cannot be in a plan: ${path.join('.') || 'the part'}: ${message}.`);
    }
    setRefusal(null);
    const { id, ...value } = draft;
    if (await wish({ command: 'setPlanPart', part: edited.kind, id, value: { ...value, id } })) onClose();
  };
  const remove = async () => {
    if (await wish({ command: 'removePlanPart', part: edited.kind, id: edited.id })) onClose();
  };
  // "The plan says so already" is no mistake of the person: nothing was changed, so nothing has to be kept.
  const unchanged = error?.facts.code === 'nothing-changes';
  useEffect(() => {
    if (unchanged) onClose();
  }, [unchanged, onClose]);
  return (
    <dialog ref={dialog} className="part-editor" aria-label={`${one} ${draft.id}`} onCancel={onClose} onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        <header>
          <h2 tabIndex={-1}>
            {known ? '' : 'New '}
            {known ? `${one[0].toUpperCase()}${one.slice(1)}` : one} {draft.id}
          </h2>
          {known
            ? moreAbout(view.job.id, edited).map(({ to, words }) => (
                <Link key={words} to={to} className="btn">
                  {words}
                </Link>
              ))
            : null}
        </header>
        <div className="fields">
          {known || edited.kind === 'vehicle' ? null : (
            <div className="field">
              <label htmlFor="part-id">Id, as it is labelled</label>
              <input
                id="part-id"
                value={draft.id}
                maxLength={32}
                autoComplete="off"
                onChange={({ target }) => setDraft({ ...draft, id: target.value })}
              />
            </div>
          )}
          <Shelf
            kind={edited.kind}
            draft={draft}
            onChange={(next) => {
              wrong.current.clear();
              setSheet(sheet + 1);
              setDraft(next);
            }}
          />
          <PartForm
            key={sheet}
            plan={plan}
            kind={edited.kind}
            draft={draft}
            onChange={setDraft}
            onWrong={(field, message) => {
              if (message === null) wrong.current.delete(field);
              else wrong.current.set(field, message);
            }}
          />
        </div>
        {refusal ? (
          <p className="refusal" role="alert">
            {refusal}
          </p>
        ) : null}
        {error && !unchanged ? <ErrorCard error={error} safe="What you typed is still here." /> : null}
        <footer>
          {known ? (
            <button type="button" className="btn" onClick={() => void remove()} disabled={busy}>
              Take it out
            </button>
          ) : null}
          <span className="grow" />
          <button type="button" className="btn" onClick={onClose}>
            Leave as it was
          </button>
          <button type="submit" className="btn keep" disabled={busy}>
            Keep {one} {draft.id}
          </button>
        </footer>
      </form>
    </dialog>
  );
}

/** The part with this id, or what a new part of a kind would be. */
export const newPart = (plan: Plan, kind: PartKind): EditedPart => ({ kind, id: freshPartId(plan, kind) });
