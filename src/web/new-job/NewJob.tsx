// A new job card: which body, what it is, whose it is, what they asked for.
import './new-job.css';
import { useState } from 'react';
import { vehicleBodies } from '../../charts/vehicle/bodies.ts';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import type { Command } from '../../job/commands/commands.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { HandSwitch } from '../plan/HandSwitch.tsx';
import { PlanView } from '../plan/PlanView.tsx';
import { goTo } from '../router.ts';
import { changeSettings, useSettings } from '../settings.ts';
import { Page } from '../shell/Page.tsx';
import { newId } from '../shop/ids.ts';
import { learned, refresh } from '../shop/known-answers.ts';
import { useResource } from '../shop/resource.ts';
import { noteAnswer, noteAway } from '../shop/saved-status.ts';
import { useShop } from '../shop/shop-context.ts';
import { type ShopError, shopErrorFrom } from '../shop/shop-error.ts';
import { jobResource } from '../shop/use-job.ts';
import { BodyChoice } from './BodyChoice.tsx';
import { type NewJobDraft, useNewJobDraft } from './draft.ts';
import { NewJobFields } from './NewJobFields.tsx';
import { nextNumber } from './next-number.ts';

function wishesFrom(draft: NewJobDraft, number: string): Command[] {
  const text = (value: string) => value.trim() || undefined;
  const name = text(draft.vehicle) ?? 'Vehicle';
  const vehicle: Command = {
    command: 'describeVehicle',
    name,
    ...(draft.body === null ? {} : { bodyType: draft.body }),
    ...(draft.body === null || draft.body === 'other' ? {} : { steering: draft.hand }),
    ...(text(draft.owner) ? { owner: text(draft.owner) as string } : {}),
    ...(text(draft.plate) ? { plate: text(draft.plate) as string } : {}),
    ...(text(draft.phone) ? { phone: text(draft.phone) as string } : {}),
  };
  const asked = text(draft.asked);
  return [
    { command: 'createJob', name, purpose: 'car', ...(number === '' ? {} : { number }) },
    vehicle,
    ...(asked === undefined ? [] : [{ command: 'addNote' as const, text: asked, about: 'asked for' }]),
  ];
}

/** What is still missing, as the main action's second line; null when the card may be made. */
function missing(draft: NewJobDraft): string | null {
  if (draft.body === null) return 'opens once a body is chosen';
  if (draft.vehicle.trim() === '') return 'opens once the vehicle has a name';
  if (draft.who.trim() === '') return 'opens once you have said who writes';
  return null;
}

function bodySentence(name: string): string {
  return `${/^[aeiou]/i.test(name) ? 'An' : 'A'} ${name.toLowerCase()} stands in the bay.`;
}

export function NewJob() {
  const { api } = useShop();
  const { who } = useSettings();
  const { draft, change, forget } = useNewJobDraft(who);
  const { value: jobs } = useResource('jobs', () => api.jobs());
  const [error, setError] = useState<ShopError | null>(null);
  const [shown, setShown] = useState(false);
  const [sent] = useState(() => ({ job: newId(), ids: [newId(), newId(), newId()] }));
  const number = draft.number === '' ? nextNumber(jobs ?? []) : draft.number;
  const waits = missing(draft);
  const create = async () => {
    setShown(true);
    if (waits !== null) return;
    changeSettings({ who: draft.who.trim() });
    try {
      const wishes = wishesFrom(draft, number.trim()).map((wish, n) => ({ id: sent.ids[n], wish }));
      const view = await api.createJob(sent.job, draft.who.trim(), wishes);
      learned(jobResource(sent.job), view);
      refresh('jobs');
      noteAnswer();
      forget();
      goTo({ page: 'job', job: sent.job }, { replace: true });
    } catch (failed) {
      const told = shopErrorFrom(failed);
      if (told.unanswered) noteAway();
      setError(told);
    }
  };
  const chosen = draft.body === null || draft.body === 'other' ? null : vehicleBodies[draft.body];
  return (
    <Page
      name="new-job"
      title="New job card"
      head={{ id: { text: 'Kickpanel' }, fields: [{ name: 'New job card', text: 'starts at Arrive', wideOnly: true }] }}
      says={chosen ? bodySentence(chosen.name) : 'Which body stands in the bay?'}
      bar={{
        why: 'Owner, plate and phone are kept apart from the journal and can be erased.',
        seconds: [{ text: 'Back to the bench', onPress: () => goTo({ page: 'bench' }) }],
        main: {
          text: `Hang up card ${number}`.trim(),
          small: waits ?? 'then the first take',
          waits: waits !== null,
          onPress: create,
        },
      }}
    >
      <div className="tops">
        <p>Near enough is good enough: the plan shows where covers and drivers sit.</p>
        <HandSwitch hand={draft.hand} onChange={(hand) => change({ hand })} />
      </div>
      <BodyChoice job={null} value={draft.body} hand={draft.hand} onChange={(body) => change({ body })} />
      {error ? <ErrorCard error={error} safe="What you typed is kept on this device." /> : null}
      <div className="about">
        <NewJobFields draft={draft} number={number} change={change} shown={shown} />
        {chosen ? (
          <PlanView
            drawing={planDrawing(chosen, { hand: draft.hand, pxPerM: 78, padX: 40, padY: 6 })}
            label={`${chosen.name}, plan view, nose at the top, wheel on the ${draft.hand}`}
            stateOf={() => 'off'}
          />
        ) : (
          <p className="quiet none">The plan view appears here.</p>
        )}
      </div>
    </Page>
  );
}
