// The noise hunt: takes at two engine speeds, what climbs with the engine, and the path cut in halves until it is found.
import './noise-hunt.css';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Finding } from '../parts/Finding.tsx';
import { Switch } from '../parts/Switch.tsx';
import { PlotView } from '../plot/PlotView.tsx';
import { levelReadout } from '../plot/readout.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { SecondAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { stageNames } from '../shell/stages.ts';
import { headOf } from '../shop/job-words.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { Findings } from './Findings.tsx';
import { HuntPath } from './HuntPath.tsx';
import { huntNote, takeNames } from './hunt-words.ts';
import { mainActionOf } from './main-action.ts';
import { NextStep } from './NextStep.tsx';
import { noisePlot } from './noise-plot.ts';
import { Takes } from './Takes.tsx';
import { ToneTable } from './ToneTable.tsx';
import { TriedList } from './TriedList.tsx';
import { useHunt } from './use-hunt.ts';
import { useHuntInputs } from './use-hunt-inputs.ts';

export function NoiseHuntScreen({ job }: { job: string }) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <NoiseHunting view={value} />;
}

const empty =
  'Record the noise with the engine off, at idle and at raised revs: what climbs with the engine comes from it.';

function NoiseHunting({ view }: { view: JobView }) {
  const style = useNumbers();
  const job = view.job.id;
  const { wish, busy, error } = useWish(job);
  const input = useHuntInputs(job);
  const { hunt, curves, issues, busy: hunting } = useHunt(input.hunted);
  const note = hunt === null ? null : huntNote(hunt, input.hunted.tried);
  const noted = note !== null && view.job.notes.some(({ text }) => text === note);
  const writeDown = () => {
    if (note !== null) void wish({ command: 'addNote', text: note, about: 'noise hunt' });
  };
  const hiss = input.hunted.heard === 'hiss';
  const seconds: SecondAction[] = [];
  if (hunt !== null) {
    seconds.push({
      text: hiss ? 'I hear a whine, not hiss' : 'I hear hiss, not a whine',
      onPress: () => input.hear(hiss ? 'whine' : 'hiss'),
    });
    if (!noted && hunt.next.test !== null) seconds.push({ text: 'Write it down', onPress: writeDown });
  }
  const subjectOf = (take: 'off' | 'idle' | 'revs'): string => {
    const rpm = take === 'off' ? undefined : input.hunted.rpm[take];
    return rpm === undefined ? takeNames[take].name : `${takeNames[take].name}, ${rpm} a minute`;
  };
  return (
    <Page
      name="noise-hunt"
      title={`Noise hunt of job ${view.job.number ?? view.job.name}`}
      head={headOf(view, job)}
      job={job}
      stage={stageNames.indexOf('Gains')}
      held={input.recorder.role !== null}
      says={hunt?.verdict ?? empty}
      bar={{
        undo: undoAct(view.job, wish),
        why: 'Engine on: bay door open, exhaust led outside.',
        seconds,
        main: mainActionOf({
          hunt,
          input,
          noted,
          onNote: writeDown,
          onBack: () => goTo({ page: 'job', job }),
        }),
      }}
    >
      {error ? <ErrorCard error={error} safe="Takes and answers are still here." /> : null}
      {input.recorder.fault === null ? null : (
        <Finding
          severity="fix"
          word="not recorded"
          message={input.recorder.fault.message}
          mend={input.recorder.fault.mend}
        />
      )}
      {issues.map(({ message, where, mend }) => (
        <Finding
          key={`${where} ${message}`}
          severity="stop"
          word="not read"
          message={
            where !== undefined && where in takeNames ? `${takeNames[where as 'off'].name}: ${message}` : message
          }
          mend={mend}
        />
      ))}
      <Takes input={input} hunt={hunt} />
      {hunt === null ? null : (
        <div className="hunt-columns" aria-busy={hunting}>
          <div>
            <section aria-labelledby="enters">
              <h2 id="enters" className="h2s">
                Where it enters <small>cut the path, listen again</small>
              </h2>
              <HuntPath path={hunt.path} />
            </section>
            {[...curves]
              .sort((a, b) => Number(a.take === 'off') - Number(b.take === 'off'))
              .map((curve) => (
                <section key={curve.take} aria-label={`Spectrum: ${takeNames[curve.take].name}`}>
                  <h2 className="h2s">
                    {subjectOf(curve.take as 'off')} <small>no music, volume as usual</small>
                  </h2>
                  <PlotView
                    spec={noisePlot(curve, curves, hunt, subjectOf(curve.take as 'off'), style)}
                    heightPx={130}
                    readout={levelReadout(style)}
                  />
                </section>
              ))}
          </div>
          <div>
            <NextStep step={hunt.next} busy={hunting || busy} onAnswer={input.answer} />
            <TriedList tried={input.hunted.tried} onTakeBack={(test) => input.answer(test, undefined)} />
            <ToneTable hunt={hunt} />
            <Findings hunt={hunt} />
          </div>
        </div>
      )}
      <div className="hunt-foot">
        <Switch
          label="How the revs were read"
          value={input.hunted.rpmFrom}
          onChange={input.readRpmFrom}
          options={[
            { value: 'counter', label: 'Revs by counter' },
            { value: 'needle', label: 'by the needle' },
          ]}
        />
        <p>
          Takes stay on this screen only: save those that matter. Revs and answers outlive a reload.{' '}
          <button type="button" className="linky" onClick={input.startAnew}>
            Start anew
          </button>
        </p>
      </div>
    </Page>
  );
}
