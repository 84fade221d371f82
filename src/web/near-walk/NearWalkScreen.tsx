// Near walk: everything plays, nothing is muted, the microphone is held to each cone, and each place tells what it is fed.
import './near-walk.css';
import { useMemo } from 'react';
import { nearPlanOfJob } from '../../job/near-walk/near-plan-of-job.ts';
import { nearProofs } from '../../job/near-walk/near-proof.ts';
import { nearTakesOf } from '../../job/near-walk/near-takes.ts';
import type { JobView } from '../api-client.ts';
import { carGrid } from '../first-sound/car-grid.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { useKeptTakes } from '../keep/outbox.ts';
import { DropZone, FileButton } from '../parts/DropZone.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Finding } from '../parts/Finding.tsx';
import { ReadingProgressBar } from '../reading/ReadingProgressBar.tsx';
import { goTo } from '../router.ts';
import type { MainAction, SecondAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { stageNames } from '../shell/stages.ts';
import { countWords, headOf } from '../shop/job-words.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { TrackFiles } from '../take/TrackFiles.tsx';
import { bandWidth, bandX } from './band-row.ts';
import { nearSentence, verdictOf } from './near-words.ts';
import { PlaceRow } from './PlaceRow.tsx';
import { Danger, Told } from './Told.tsx';
import { nearTrack, useNearFiles } from './use-near-files.ts';
import { useNearWalk } from './use-near-walk.ts';
import { WalkedCar } from './WalkedCar.tsx';

export function NearWalkScreen({ job }: { job: string }) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <NearWalk view={value} />;
}

const axis = [
  [20, '20 Hz'],
  [100, '100'],
  [1000, '1k'],
  [10_000, '10k'],
] as const;

function NearWalk({ view }: { view: JobView }) {
  const { job } = view;
  const { wish, busy, error } = useWish(job.id);
  const near = useMemo(() => nearPlanOfJob(job.plan.parts), [job]);
  const takes = useMemo(() => nearTakesOf(job, near.walk), [job, near]);
  const read = useNearWalk(job.id, near, takes);
  const { channels, left } = near.walk;
  const open = channels.flatMap(({ place }) => (takes.has(place) ? [] : [place]));
  const files = useNearFiles(view, near, open, wish);
  const track = useMemo(nearTrack, []);
  const waiting = useKeptTakes().filter((kept) => kept.job === job.id && kept.track.kind === 'near');
  const proofs = useMemo(
    () => (read.walk === null || read.progress !== null ? [] : nearProofs(job, near, read.walk, takes)),
    [job, near, read.walk, read.progress, takes],
  );
  const points = proofs.flatMap(({ holdPoints }) => holdPoints);
  const { walk } = read;
  const grid = useMemo(() => carGrid(job.plan.parts, channels), [job, channels]);
  const verdicts = new Map(
    (walk?.places ?? []).map((told) => {
      const danger = walk?.findings.some(({ place }) => place === told.place) === true;
      return [told.place, verdictOf(near.plan, told, danger).severity] as const;
    }),
  );
  const planned = channels.length > 0 && near.issues.length === 0;

  const prove = () => {
    if (busy) return;
    const words = 'a take close to the driver, everything playing';
    void wish(
      ...proofs.map(({ take, holdPoints }) => ({
        command: 'giveEvidence' as const,
        holdPoints,
        evidence: { how: 'take' as const, take, words },
      })),
    );
  };
  return (
    <Page
      name="near-walk"
      title={`Near walk of job ${job.number ?? job.name}`}
      head={headOf(view, job.id)}
      job={job.id}
      stage={stageNames.indexOf('First sound')}
      says={
        planned
          ? nearSentence(near.plan, walk, read.progress !== null)
          : near.issues.length > 0
            ? near.issues[0].message
            : `The near walk needs the plan first: ${left.length === 0 ? 'channels' : `of ${left[0].id} ${left[0].needs}`}.`
      }
      bar={{
        undo: undoAct(job, wish),
        why: planned ? 'Everything plays, nothing is muted. Volume right down first.' : undefined,
        seconds: secondActions(),
        main: mainAction(),
      }}
    >
      {error ? <ErrorCard error={error} /> : null}
      {read.error ? <ErrorCard error={read.error} /> : null}
      {files.fault === null ? null : <Finding severity="stop" word="not taken" message={files.fault} />}
      {walk === null ? null : <Danger answer={walk} />}
      {read.progress === null ? null : (
        <div className="near-reads">
          <ReadingProgressBar share={read.progress.share} doing={read.progress.doing} />
          <button type="button" className="btn" data-key="stop" onClick={read.stop}>
            Stop reading
          </button>
        </div>
      )}
      {read.stopped ? (
        <p className="near-reads">
          Reading was stopped.{' '}
          <button type="button" className="btn" onClick={read.again}>
            Read on
          </button>
        </p>
      ) : null}
      {planned ? (
        <>
          <ul className="cautions" aria-label="Cautions">
            <li>
              Turn the volume right down, then up until you just hear it. A small driver at 4 cm is 25 to 30 dB louder
              than at the seat: keep your ears away from it, and the recorder low.
            </li>
            <li>Until its high-pass is proven a tweeter may get bass: if one rattles or buzzes, stop at once.</li>
          </ul>
          {walk === null ? null : <Told answer={walk} walk={near.walk} />}
          <div className="near-grid">
            <WalkedCar grid={grid} verdicts={verdicts} />
            <DropZone className="near-list" label="Recordings of all places" onFiles={files.takeLong}>
              <div className="near-row head" aria-hidden="true">
                <span>Place</span>
                <span>Side</span>
                <span className="axis">
                  {axis.map(([fHz, text]) => (
                    <i key={fHz} style={{ left: `${(100 * bandX(fHz)) / bandWidth}%` }}>
                      {text}
                    </i>
                  ))}
                </span>
                <span>Edge / slope</span>
                <span>First move</span>
                <span>Against the plan</span>
                <span />
              </div>
              <ul className="near-rows" aria-label="Places">
                {channels.map((channel, n) => (
                  <PlaceRow
                    key={channel.place}
                    job={job.id}
                    plan={near.plan}
                    output={near.plan.outputs[n]}
                    channel={channel}
                    walk={walk}
                    taken={takes.has(channel.place)}
                    onFiles={(dropped) => files.takeFor(channel, dropped)}
                  />
                ))}
              </ul>
              <p className="near-key" aria-hidden="true">
                <span>
                  <i className="sw planned" /> planned band
                </span>
                <span>
                  <i className="sw found" /> found
                </span>
                <span>
                  <i className="sw drowned" /> its neighbours are louder
                </span>
                <span>filled = side heard, bar below = side planned</span>
              </p>
              <section className="near-long" aria-label="Recorded elsewhere">
                <p>
                  <b>Recorded elsewhere?</b> Drop a WAV on its place. One long recording, dropped on the list, is cut at
                  each stop: the track from its start at each cone, in the order of the list. The track’s description
                  may come along.
                </p>
                <div className="row">
                  <FileButton text="One long recording" onFiles={files.takeLong} />
                  <TrackFiles track={track} onFile={() => files.writeDown(track)} />
                </div>
                {files.doing === null ? null : <p role="status">{files.doing}.</p>}
                {waiting.length === 0 ? null : (
                  <p role="status">
                    {countWords(waiting.length, 'take waits', 'takes wait')} here until the shop answers.
                  </p>
                )}
              </section>
            </DropZone>
          </div>
        </>
      ) : null}
      {left.map(({ id, needs }) => (
        <p key={id} className="quiet">
          {id} is not walked: the plan does not say {needs}.
        </p>
      ))}
    </Page>
  );

  function record(place: string): void {
    const channel = channels.find((one) => one.place === place);
    if (channel !== undefined) goTo({ page: 'take', job: job.id, place: channel.placeName, near: true });
  }

  function secondActions(): SecondAction[] {
    const channelByChannel = { text: 'One at a time', onPress: () => goTo({ page: 'first-sound', job: job.id }) };
    const [next] = open;
    return points.length > 0 && next !== undefined
      ? [channelByChannel, { text: `Record ${next}`, onPress: () => record(next) }]
      : [channelByChannel];
  }

  function mainAction(): MainAction {
    if (!planned) {
      return {
        text: 'Go to the plan',
        small: 'it gives the walk its channels',
        onPress: () => goTo({ page: 'plan', job: job.id, part: null }),
      };
    }
    if (points.length > 0) {
      const places = countWords(proofs.length, 'place', 'places').toLowerCase();
      return {
        text: `Close ${countWords(points.length, 'hold point', 'hold points').toLowerCase()}`,
        small: `${places} as planned, by their takes`,
        waits: busy,
        onPress: prove,
      };
    }
    const danger = walk?.findings[0]?.place;
    if (danger !== undefined)
      return {
        text: `Record ${danger} again`,
        small: 'only once its high-pass is proven',
        onPress: () => record(danger),
        icon: 'record',
      };
    const [next] = open;
    if (next !== undefined)
      return {
        text: `Record ${next}`,
        small: '3 to 5 cm before its cone',
        onPress: () => record(next),
        icon: 'record',
      };
    const again = walk?.places.find(({ verdict }) => verdict !== 'as-planned');
    if (again !== undefined)
      return {
        text: `Record ${again.place} again`,
        small: 'once it is mended',
        onPress: () => record(again.place),
        icon: 'record',
      };
    return { text: 'Go to the gains', onPress: () => goTo({ page: 'gains', job: job.id }) };
  }
}
