// A take: chosen, recorded or dropped, and what to do when it breaks off.
import './take.css';
import { useState } from 'react';
import { fixedText } from '../../charts/number-words.ts';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import type { TrackDescription } from '../../signals/track.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { lookAtKept, sendKept } from '../keep/outbox.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Finding } from '../parts/Finding.tsx';
import { durationText } from '../parts/times.ts';
import { asDriven, coversText } from '../plan/cover-words.ts';
import { coversAnswer } from '../plan/covers-asked.ts';
import { PlanView } from '../plan/PlanView.tsx';
import { type VehiclePlan, vehiclePlan } from '../plan/vehicle-plan.ts';
import type { Route } from '../route.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { BarProps } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { useStage } from '../shell/use-stage.ts';
import { headOf } from '../shop/job-words.ts';
import { microphoneOf, useMicrophones } from '../shop/microphones.ts';
import { useSavedStatus } from '../shop/saved-status.ts';
import { useShop } from '../shop/shop-context.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { CoversLine } from './CoversLine.tsx';
import { useTakeChoice } from './choice.ts';
import { DropPanel, type DropTrack } from './DropPanel.tsx';
import { keepFile, takeToRecord } from './new-take.ts';
import { PlaysPanel } from './PlaysPanel.tsx';
import { RecorderPanel } from './RecorderPanel.tsx';
import { brokenPlace, TakeBroken } from './TakeBroken.tsx';
import { TakeLive } from './TakeLive.tsx';
import { designedTake, issueText, trackWords } from './take-wish.ts';
import { useListening } from './use-listening.ts';
import { type LiveTake, useTake } from './use-take.ts';

interface TakeScreenProps {
  id: string;
  place: string | null;
  /** A take of the near walk, from which it comes and to which it goes back. */
  near: boolean;
}

export function TakeScreen({ id, place, near }: TakeScreenProps) {
  const { value, error } = useJob(id);
  if (!value) return <JobAway job={id} error={error} />;
  return <Take view={value} asked={place} near={near} />;
}

function liveSentence(live: LiveTake, place: string): string {
  const what = place.trim() || 'another place';
  if (live.step === 'making') return `Making the track: ${what}.`;
  if (live.step === 'opening') return 'Opening the microphone.';
  if (live.step === 'keeping') return 'Keeping the take.';
  if (live.plays === 'elsewhere') return `Recording: ${what}. Play the track, and stop here when it has ended.`;
  const rest = live.remainingS === null ? '' : `, ${durationText(live.remainingS)} to go`;
  return `Recording: ${what}. Hold still${rest}.`;
}

function Take({ view, asked, near }: { view: JobView; asked: string | null; near: boolean }) {
  const { api } = useShop();
  const { job } = view;
  const style = useNumbers();
  const plan = vehiclePlan(job.vehicle);
  const heardBefore = (name: string) => job.takes.some(({ kept, place }) => kept && place === name);
  const { choice, change } = useTakeChoice(job.id, asked, heardBefore, near);
  const walk: Route | null = near ? { page: 'near-walk', job: job.id } : null;
  const stage = useStage(view);
  const { wish, error } = useWish(job.id);
  const listening = useListening();
  const { value: microphones } = useMicrophones();
  const { fault } = useSavedStatus();
  const [dropTrack, setDropTrack] = useState<DropTrack>({ from: 'above' });
  const [notTaken, setNotTaken] = useState<string | null>(null);
  const { state, start, stop, again } = useTake(job.id, walk);
  const designed = designedTake(choice);
  const microphone = listening.state.applied ? microphoneOf(microphones ?? [], listening.state.applied.label) : null;
  const coversUnknown =
    plan !== null &&
    coversAnswer(
      plan.layout.covers.map(({ id }) => id),
      job.covers,
      {},
    ) !== null;
  const waitsFor = !designed.ok
    ? 'opens once the track can be made'
    : coversUnknown
      ? 'opens once the covers are said'
      : fault !== null
        ? 'waits: this browser keeps nothing'
        : null;

  const record = () => {
    if (waitsFor !== null || !designed.ok) return;
    const { track } = designed.value;
    const capture = listening.handOver();
    const take = takeToRecord({ view, track, place: choice.place, microphone });
    const { plays, outputId, inputId } = choice;
    start({ take, track, plays, outputId, inputId, capture }, listening.refuse);
  };
  const trackOf = async (chosen: DropTrack): Promise<TrackDescription> => {
    if (chosen.from === 'file') return chosen.track;
    if (chosen.from === 'job') return api.track(chosen.sha256);
    if (!designed.ok) throw new Error(issueText(designed.issues[0]));
    return designed.value.track;
  };
  const takeFile = async (file: File, chosen: DropTrack) => {
    setNotTaken(null);
    try {
      const track = await trackOf(chosen);
      const kept = await keepFile(takeToRecord({ view, track, place: choice.place, microphone: null }), file);
      await lookAtKept();
      void sendKept(api);
      goTo(walk ?? { page: 'reading', job: job.id, take: kept.id });
    } catch (failed) {
      const full = failed instanceof DOMException && failed.name === 'QuotaExceededError';
      setNotTaken(full ? 'The disk has no more room for this browser.' : (failed as Error).message);
    }
  };
  /** A track carried away is written down, so that its recording can be read by it later. */
  const writeTrackDown = async () => {
    if (!designed.ok) return;
    const { track } = designed.value;
    const made = await api.keepTrack(track).catch(() => null);
    if (!made) return;
    await wish({
      command: 'keepTrack',
      track: made.sha256,
      kind: track.kind,
      durationS: track.durationS,
      name: `${choice.place}, ${trackWords(track)}`.slice(0, 120),
      ...(track.code === undefined ? {} : { code: track.code }),
    });
  };

  const frame = { title: 'Take', head: headOf(view, job.id), job: job.id, stage };
  if (state.phase === 'live') {
    const { live } = state;
    const bar: BarProps = {
      why:
        live.plays === 'here'
          ? 'A door, a voice or a lorry spoils it: stop and go again.'
          : 'Play it from the start to the end.',
      main: {
        text: live.plays === 'here' ? 'Stop this take' : 'Stop and read',
        icon: 'halt',
        onPress: stop,
      },
    };
    return (
      <Page name="take live" {...frame} held says={liveSentence(live, choice.place)} bar={bar}>
        <button type="button" className="unseen" data-key="stop" tabIndex={-1} onClick={stop}>
          Stop
        </button>
        <TakeLive
          live={live}
          splDb={microphone?.fullScaleSplDb}
          car={plan ? <CarAsItIs plan={plan} view={view} place={choice.place} /> : null}
        />
      </Page>
    );
  }
  if (state.phase === 'broken') {
    return (
      <Page
        name="take broken"
        {...frame}
        says={`The take stopped ${brokenPlace(state.broken, style)}. What was recorded is ${state.broken.end.take ? 'kept' : 'kept as far as it was written'}.`}
        bar={{
          why: 'Nothing else is lost.',
          seconds: [{ text: 'Back to the card', onPress: () => goTo({ page: 'job', job: job.id }) }],
          main: { text: 'Take it again', small: 'from the start', onPress: again },
        }}
      >
        <TakeBroken broken={state.broken} />
      </Page>
    );
  }
  const seconds = designed.ok ? durationText(designed.value.track.durationS) : '';
  const says = designed.ok
    ? `${choice.place.trim() || 'Another place'} next: ${trackWords(designed.value.track)}, at ${fixedText(choice.levelDbfs, 0, style)} dBFS.`
    : 'This track cannot be made as it is set.';
  return (
    <Page
      name="take setup"
      {...frame}
      says={says}
      bar={{
        why:
          choice.levelDbfs > -20
            ? 'It gets loud: everyone near the car wears hearing protection.'
            : 'Volume right down first, then raise it.',
        seconds: [
          walk === null
            ? { text: 'Back to the card', onPress: () => goTo({ page: 'job', job: job.id }) }
            : { text: 'Back to the near walk', onPress: () => goTo(walk) },
        ],
        main: {
          text: choice.plays === 'here' ? 'Play and record' : 'Record',
          small: waitsFor ?? (choice.plays === 'here' ? `${seconds}, stop it at any time` : 'then play the track'),
          waits: waitsFor !== null,
          icon: 'record',
          onPress: record,
        },
      }}
    >
      <button
        type="button"
        className="unseen"
        data-key="back"
        tabIndex={-1}
        onClick={() => goTo(walk ?? { page: 'job', job: job.id })}
      >
        Back
      </button>
      {error ? <ErrorCard error={error} /> : null}
      {fault ? (
        <Finding
          severity="stop"
          word="not kept"
          message={`Recording has to wait: ${fault}`}
          mend="Leave private browsing, or make room on the disk, and load this page again."
        />
      ) : null}
      {designed.ok ? null : <Finding severity="fix" word="track" message={issueText(designed.issues[0])} />}
      {plan ? <CoversLine view={view} plan={plan} wish={wish} /> : null}
      <div className="setup-grid">
        <PlaysPanel
          choice={choice}
          change={change}
          places={plan?.layout.places ?? []}
          heardBefore={heardBefore}
          designed={designed.ok ? designed.value : null}
          onFile={writeTrackDown}
        />
        <div>
          <RecorderPanel
            inputId={choice.inputId}
            onInput={(inputId) => {
              change({ inputId });
              if (listening.state.applied) void listening.listen(inputId);
            }}
            listening={listening.state}
            onListen={() => void listening.listen(choice.inputId)}
            onStop={listening.stop}
            microphones={microphones ?? []}
          />
          <DropPanel tracks={job.tracks} track={dropTrack} onTrack={setDropTrack} onRecording={takeFile} />
          {notTaken ? <Finding severity="stop" word="not taken" message={notTaken} /> : null}
        </div>
      </div>
    </Page>
  );
}

/** The plan with the place that is heard, and in words whether this is the car that is driven. */
function CarAsItIs({ plan, view, place }: { plan: VehiclePlan; view: JobView; place: string }) {
  const { covers } = view.job;
  const chosen = plan.layout.places.find(({ name }) => name === place)?.id ?? null;
  return (
    <div className="car-now">
      <PlanView
        drawing={planDrawing(plan.body, { hand: plan.hand, pxPerM: 58, padX: 30, padY: 4 })}
        label={`The car: ${coversText(covers)}; ${place} plays`}
        stateOf={(id) => covers.find(({ cover }) => cover === id)?.state ?? 'unknown'}
        letters={false}
        chosenPlace={chosen}
      />
      <p>
        {place}, {coversText(covers)}.
        <br />
        {asDriven(covers) ? 'This is the car the customer drives.' : 'Not the car the customer drives.'}
      </p>
    </div>
  );
}
