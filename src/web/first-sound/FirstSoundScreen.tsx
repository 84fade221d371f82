// First sound: each channel alone, quietly, and the place tapped where it is heard, until every lead is proven.
import './first-sound.css';
import { useMemo, useState } from 'react';
import { jobWalk, soundOf } from '../../job/walk/job-walk.ts';
import { outcomeWords } from '../../wiring/fault-words.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Finding } from '../parts/Finding.tsx';
import { TextField } from '../parts/TextField.tsx';
import { goTo } from '../router.ts';
import { changeSettings, useSettings } from '../settings.ts';
import type { MainAction, SecondAction } from '../shell/Bar.tsx';
import { Link } from '../shell/Link.tsx';
import { Page } from '../shell/Page.tsx';
import { stageNames } from '../shell/stages.ts';
import { countWords, headOf } from '../shop/job-words.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { TrackFiles } from '../take/TrackFiles.tsx';
import { CrossingChart } from './CrossingChart.tsx';
import { carGrid } from './car-grid.ts';
import { Explained } from './Explained.tsx';
import { HeardAt, type Polarity } from './HeardAt.tsx';
import { NextTest } from './NextTest.tsx';
import { useTestSound } from './use-test-sound.ts';
import { useWalkSound } from './use-walk-sound.ts';
import { walkSentence } from './walk-words.ts';

export function FirstSoundScreen({ job }: { job: string }) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <FirstSound view={value} />;
}

function FirstSound({ view }: { view: JobView }) {
  const { job } = view;
  const { wish, busy, error } = useWish(job.id);
  const { who } = useSettings();
  const [name, setName] = useState('');
  const [chosen, setChosen] = useState<ReadonlyMap<string, Polarity>>(new Map());
  const walk = useMemo(() => jobWalk(job), [job]);
  const { next, proves } = walk;
  const channel = next.do === 'play' ? next.channel : null;
  const grid = useMemo(() => carGrid(job.plan.parts, walk.walk.channels), [job, walk]);
  const sound = channel === null ? null : soundOf(job, channel);
  const test = useTestSound(channel, sound);
  const player = useWalkSound(test);

  const hear = async (places: ReadonlyMap<string, Polarity>) => {
    if (channel === null) return;
    const heard = [...places].map(([place, polarity]) => ({ place, polarity }));
    player.stop();
    const sound = { how: 'played' as const, side: channel.side, channels: [channel.id], heard };
    if (await wish({ command: 'hearSound', sound })) setChosen(new Map());
  };
  const mended = () => {
    if (next.do !== 'mend') return;
    const what = next.faults.map(({ act }) => act).join(' ');
    void wish({ command: 'hearSound', sound: { how: 'mended', what } });
  };
  const signer = who.trim() || name.trim();
  const prove = async () => {
    if (signer === '') return document.querySelector<HTMLElement>('.signs input')?.focus();
    changeSettings({ who: signer });
    const words = 'heard in the channel walk, one channel at a time';
    await wish({ command: 'giveEvidence', holdPoints: proves, evidence: { how: 'seen', name: signer, words } });
  };

  const seconds: SecondAction[] = [];
  if (channel !== null) {
    if (chosen.size > 0 && player.state === 'quiet') {
      seconds.push({ text: `Play ${channel.id} again`, onPress: player.play });
    }
    if (chosen.size === 0) seconds.push({ text: 'Nothing', onPress: () => void hear(new Map()) });
  }
  return (
    <Page
      name="first-sound"
      title={`First sound of job ${job.number ?? job.name}`}
      head={headOf(view, job.id)}
      job={job.id}
      stage={stageNames.indexOf('First sound')}
      says={walkSentence(walk)}
      bar={{
        undo: undoAct(job, wish),
        why: channel === null ? undefined : 'Volume right down first, then up until you just hear it.',
        seconds,
        main: mainAction(),
      }}
    >
      {error ? <ErrorCard error={error} /> : null}
      {player.fault === null ? null : (
        <Finding severity="fix" word="no sound" message={player.fault} mend="Take the file and play it elsewhere." />
      )}
      <div className="walk">
        <div className="walk-places">
          {channel !== null && sound !== null ? (
            <>
              <p className="said">
                Let only {channel.output} sound: mute every other output in the processor.
                {channel.side === 'both' ? ' Both sides play.' : ` The ${channel.side} side plays.`}
              </p>
              <ul className="cautions" aria-label="Cautions">
                <li>
                  Start low: nobody has proven where this lead ends.{' '}
                  {sound.safeForTweeter
                    ? 'The sound stays in a band that a tweeter bears.'
                    : 'The sound is low: if a tweeter answers, stop at once.'}
                </li>
              </ul>
            </>
          ) : null}
          {next.do === 'test' ? (
            <NextTest
              walk={walk}
              step={next}
              busy={busy}
              onOutcome={(test, outcome) =>
                void wish({ command: 'hearSound', sound: { how: 'tested', test, outcome } })
              }
            />
          ) : null}
          {next.do === 'mend' ? (
            <>
              <p className="said">Then what was heard wrongly is played once more; what was right stays.</p>
              <ul className="cautions" aria-label="Cautions">
                <li>Amplifiers off before a lead is moved; volume right down before they are on again.</li>
              </ul>
            </>
          ) : null}
          {next.do === 'proven' && proves.length > 0 ? (
            <section className="signs" aria-label="What this proves">
              <p className="said">
                It shows {countWords(proves.length, 'hold point', 'hold points').toLowerCase()} to be right. A name
                closes them: that of whoever walked.
              </p>
              {who.trim() === '' ? (
                <TextField
                  label="Who walked"
                  hint="Asked once on this device."
                  value={name}
                  maxLength={80}
                  onChange={setName}
                />
              ) : null}
              <ul className="shown">
                {proves.map((id) => (
                  <li key={id}>{id}</li>
                ))}
              </ul>
            </section>
          ) : null}
          {next.do === 'proven' && walk.answer.notProven.length > 0 ? (
            <p className="said">Not proven: which way {walk.answer.notProven.join(', ')} moves first.</p>
          ) : null}
          {player.state === 'playing' ? (
            <button type="button" className="btn" data-key="stop" onClick={player.stop}>
              Stop the sound
            </button>
          ) : null}
          {channel !== null ? <HeardAt grid={grid} chosen={chosen} change={setChosen} /> : null}
          {walk.walk.channels.length > 0 && proves.length === 0 ? (
            <Link to={{ page: 'near-walk', job: job.id }} className="btn wide">
              <span>
                Near walk
                <small>faster: a microphone before each cone, everything plays</small>
              </span>
            </Link>
          ) : null}
          {test !== null ? <TrackFiles track={test.track} onFile={() => {}} /> : null}
          {walk.walk.left.map(({ id, needs }) => (
            <p key={id} className="quiet">
              {id} is not walked: the plan does not say {needs}.
            </p>
          ))}
        </div>
        {walk.walk.channels.length > 0 ? (
          <>
            <CrossingChart walk={walk} />
            <Explained walk={walk} />
          </>
        ) : null}
      </div>
    </Page>
  );

  function mainAction(): MainAction {
    if (next.do === 'plan') {
      return {
        text: 'Go to the plan',
        small: 'it gives the walk its channels',
        onPress: () => goTo({ page: 'plan', job: job.id, part: null }),
      };
    }
    if (next.do === 'mend') {
      return { text: 'It is mended', small: 'what was wrong is heard again', onPress: mended };
    }
    if (next.do === 'test') {
      const [first] = next.test.outcomes;
      return {
        text: 'Say what came out',
        small: `for example: ${outcomeWords(walk.walk, first.outcome).toLowerCase()}`,
        onPress: () => document.querySelector<HTMLElement>('.outcomes button')?.focus(),
      };
    }
    if (next.do === 'proven') {
      return proves.length === 0
        ? { text: 'Go to the gains', onPress: () => goTo({ page: 'gains', job: job.id }) }
        : {
            text: `Close ${countWords(proves.length, 'hold point', 'hold points').toLowerCase()}`,
            small: signer === '' ? 'needs your name' : `signed ${signer}`,
            onPress: () => void prove(),
          };
    }
    if (chosen.size > 0) {
      const places = [...chosen.keys()].join(' and ');
      return { text: `Heard at ${places}`, small: 'write it down', onPress: () => void hear(chosen) };
    }
    if (player.state === 'playing') {
      return { text: `${next.channel.id} plays`, small: 'tap where you hear it', waits: true, onPress: () => {} };
    }
    return {
      text: `Play ${next.channel.id}${next.again ? ' again' : ''}`,
      small: player.state === 'making' ? 'is being made' : 'quiet noise, from this device',
      onPress: player.play,
      icon: 'play',
    };
  }
}
