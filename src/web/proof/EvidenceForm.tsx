// Evidence for one hold point, given where it stands: what a meter reads, a take, or somebody's word with a name.
import { useState } from 'react';
import type { Evidence, EvidenceHow } from '../../job/hold-points/evidence-forms.ts';
import type { HoldPoint } from '../../job/hold-points/hold-points.ts';
import { rangeWords } from '../../job/hold-points/planned-points.ts';
import type { JobView } from '../api-client.ts';
import { Choice } from '../parts/Choice.tsx';
import { Field } from '../parts/Field.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { TextField } from '../parts/TextField.tsx';
import { whenText } from '../parts/times.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { changeSettings, useSettings } from '../settings.ts';
import { type EvidenceDraft, evidenceFrom, likelyUnit, typedVerdict, unitsOf, unitWords } from './evidence-draft.ts';
import { unpluggable } from './unpluggable.ts';

const howWords: Record<EvidenceHow, string> = {
  measured: 'A meter',
  take: 'A take',
  photo: 'A photo',
  seen: 'Somebody saw it',
};

/** A meter or a take first; without a take there is nothing to pick. */
function firstWay({ job }: JobView, { accepts }: HoldPoint): EvidenceHow {
  const ways = accepts.filter((how) => how !== 'take' || job.takes.some(({ kept }) => kept));
  return ways[0] ?? accepts[0];
}

interface EvidenceFormProps {
  view: JobView;
  point: HoldPoint;
  busy: boolean;
  onGive: (evidence: Evidence) => void;
  onCancel: () => void;
}

export function EvidenceForm({ view, point, busy, onGive, onCancel }: EvidenceFormProps) {
  const { who } = useSettings();
  const [draft, setDraft] = useState<EvidenceDraft>(() => ({
    how: firstWay(view, point),
    value: '',
    unit: likelyUnit(point),
    without: [],
    take: '',
    photo: '',
    name: who,
    words: '',
  }));
  const [shown, setShown] = useState(false);
  // Without a photo in the job there is none to choose.
  const ways = point.accepts.filter((how) => how !== 'photo' || view.job.photos.length > 0);
  const given = evidenceFrom(draft);
  const wrong = (field: keyof EvidenceDraft) =>
    shown && 'wrong' in given && given.wrong === field ? given.says : undefined;
  const change = (more: Partial<EvidenceDraft>) => setDraft({ ...draft, ...more });
  return (
    <form
      className="evidence"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        setShown(true);
        if (!('evidence' in given)) return;
        if (given.evidence.how === 'seen' && who === '') changeSettings({ who: given.evidence.name });
        onGive(given.evidence);
      }}
    >
      <p className="closes">{trueMinus(point.closes)}</p>
      {ways.length > 1 ? (
        <Choice
          legend="What shows it"
          options={ways.map((how) => ({ value: how, label: howWords[how] }))}
          value={draft.how}
          onChange={(how) => change({ how })}
          columns={2}
        />
      ) : null}
      {draft.how === 'measured' ? (
        <Meter view={view} point={point} draft={draft} change={change} wrong={wrong} />
      ) : null}
      {draft.how === 'take' ? <TakePick view={view} draft={draft} change={change} wrong={wrong} /> : null}
      {draft.how === 'photo' ? <PhotoPick view={view} draft={draft} change={change} wrong={wrong} /> : null}
      {draft.how === 'seen' ? (
        <TextField
          label="Seen and found right by"
          wrong={wrong('name')}
          value={draft.name}
          maxLength={80}
          onChange={(value) => change({ name: value })}
        />
      ) : null}
      {draft.how === 'measured' ? null : (
        <TextField
          label="In words, if there is more to say"
          value={draft.words}
          maxLength={500}
          onChange={(value) => change({ words: value })}
        />
      )}
      <div className="ways">
        <button type="submit" className="btn keep" disabled={busy}>
          Give this evidence
        </button>
        <button type="button" className="btn" onClick={onCancel}>
          Leave it open
        </button>
      </div>
    </form>
  );
}

interface PartProps {
  view: JobView;
  draft: EvidenceDraft;
  change: (more: Partial<EvidenceDraft>) => void;
  wrong: (field: keyof EvidenceDraft) => string | undefined;
}

function Meter({ view, point, draft, change, wrong }: PartProps & { point: HoldPoint }) {
  const { expected } = point;
  const units = unitsOf(point);
  const drivers = unpluggable(view, point);
  // With a driver unplugged another value is expected, which is told once it is given.
  const verdict = draft.without.length > 0 ? null : typedVerdict(draft, expected);
  return (
    <>
      <div className="meter">
        <Field
          label="The meter reads"
          hint={expected === null ? undefined : `expected ${rangeWords(expected)}`}
          wrong={wrong('value')}
        >
          {(field) => (
            <input
              {...field}
              inputMode="decimal"
              autoComplete="off"
              value={draft.value}
              onChange={({ target }) => change({ value: target.value })}
            />
          )}
        </Field>
        <Field label="Unit">
          {(field) => (
            <select
              {...field}
              value={draft.unit}
              onChange={({ target }) => change({ unit: units.find((unit) => unit === target.value) ?? draft.unit })}
            >
              {units.map((unit) => (
                <option key={unit} value={unit}>
                  {unitWords[unit]}
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>
      <p className="at-once" aria-live="polite">
        {verdict === 'within' ? <SeverityMark severity="ok">within what is expected</SeverityMark> : null}
        {verdict === 'outside' ? <SeverityMark severity="fix">outside: the point stays open</SeverityMark> : null}
      </p>
      {drivers.length > 1 ? (
        <fieldset className="without">
          <legend>Unplugged for this reading, if any</legend>
          {drivers.map(({ id, words }) => (
            <label key={id}>
              <input
                type="checkbox"
                checked={draft.without.includes(id)}
                onChange={({ target }) =>
                  change({
                    without: target.checked ? [...draft.without, id] : draft.without.filter((other) => other !== id),
                  })
                }
              />
              {words}
            </label>
          ))}
        </fieldset>
      ) : null}
    </>
  );
}

function TakePick({ view, draft, change, wrong }: PartProps) {
  const takes = view.job.takes.filter(({ kept }) => kept).reverse();
  if (takes.length === 0) {
    return (
      <p className="said" role="status">
        This job has no take yet. Record one first, or say who saw it.
      </p>
    );
  }
  return (
    <Field label="The take that shows it" wrong={wrong('take')}>
      {(field) => (
        <select {...field} value={draft.take} onChange={({ target }) => change({ take: target.value })}>
          <option value="">choose one of {takes.length}</option>
          {takes.map(({ take, name, place, when }) => (
            <option key={take} value={take}>
              {[name, place, whenText(when, new Date())].filter(Boolean).join(', ')}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

function PhotoPick({ view, draft, change, wrong }: PartProps) {
  const { photos } = view.job;
  return (
    <Field label="The photo that shows it" wrong={wrong('photo')}>
      {(field) => (
        <select {...field} value={draft.photo} onChange={({ target }) => change({ photo: target.value })}>
          <option value="">choose one of {photos.length}</option>
          {[...photos].reverse().map(({ photo, name, when }) => (
            <option key={photo} value={photo}>
              {[name, whenText(when, new Date())].join(', ')}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
