// Gains: what the source gives clean, what the meter should read at every amplifier channel, and what it read.
import '../proof/proof.css';
import './gains.css';
import { useMemo } from 'react';
import { gainToneDbfs, meterCornerHz } from '../../job/gains/channel-gain.ts';
import { type GainSheet, gainSheet } from '../../job/gains/gain-sheet.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Icon } from '../parts/Icon.tsx';
import { Switch } from '../parts/Switch.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { useTyped } from '../parts/use-typed.ts';
import { tagOf } from '../proof/PointRow.tsx';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { stageNames } from '../shell/stages.ts';
import { headOf } from '../shop/job-words.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { ChannelCard } from './ChannelCard.tsx';
import { gainsSentence, nextChannel, startCautions } from './gains-words.ts';
import { VoltsField } from './VoltsField.tsx';

export function GainsScreen({ job }: { job: string }) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <Gains view={value} />;
}

const tones = ['-20', '-10', '0'] as const;
const meters = ['1000', '20000'] as const;

interface Choices {
  tone: (typeof tones)[number];
  meter: (typeof meters)[number];
}

/** The place where the volts of a channel are typed. */
function focusVoltsOf(holdPoint: string): void {
  const input = document.querySelector<HTMLInputElement>(`[data-point="${CSS.escape(holdPoint)}"] .volts input`);
  input?.focus();
  input?.scrollIntoView({ block: 'center' });
}

function Gains({ view }: { view: JobView }) {
  const style = useNumbers();
  const job = view.job.id;
  const { wish, busy, error } = useWish(job);
  const [choices, choose] = useTyped<Choices>(`gains.${job}`, { tone: '-20', meter: '1000' });
  const sheet = useMemo(
    () => gainSheet(view.job, { toneDbfs: Number(choices.tone), meterHz: Number(choices.meter) }),
    [view, choices.tone, choices.meter],
  );
  const next = nextChannel(sheet);
  const done = sheet.channels.filter(({ state }) => state === 'closed').length;
  const main: MainAction =
    next === undefined
      ? sheet.channels.length === 0
        ? {
            text: 'Go to the plan',
            small: 'it gives each channel its target',
            onPress: () => goTo({ page: 'plan', job, part: null }),
          }
        : {
            text: 'Hold points',
            small: 'what is left to prove',
            onPress: () => goTo({ page: 'hold-points', job, cover: null }),
          }
      : {
          text: `Type what ${next.terminal} reads`,
          small: `${done} of ${sheet.channels.length} channels stand`,
          onPress: () => focusVoltsOf(next.holdPoint),
        };
  // What is as the sheet has it by default goes without saying.
  const asked = {
    ...(sheet.toneDbfs === gainToneDbfs ? {} : { toneDbfs: sheet.toneDbfs }),
    ...(sheet.meterHz === meterCornerHz ? {} : { meterHz: sheet.meterHz }),
  };
  const read = (holdPoint: string, value: number) =>
    wish({
      command: 'giveEvidence',
      holdPoints: [holdPoint],
      evidence: { how: 'measured', value, unit: 'V', ...asked },
    });
  return (
    <Page
      name="gains"
      title={`Gains of job ${view.job.number ?? view.job.name}`}
      head={headOf(view, job)}
      job={job}
      stage={stageNames.indexOf('Gains')}
      says={gainsSentence(sheet, style)}
      bar={{
        undo: undoAct(view.job, wish),
        why: sheet.channels.length === 0 ? undefined : 'Speakers unplugged. Gains at their least first.',
        seconds: [
          { text: 'Noise hunt', onPress: () => goTo({ page: 'noise-hunt', job }) },
          { text: 'Hold points', onPress: () => goTo({ page: 'hold-points', job, cover: null }) },
        ],
        main,
      }}
    >
      {error ? <ErrorCard error={error} safe="What you typed is still here." /> : null}
      <ul className="cautions gain-cautions" aria-label="Cautions">
        {[...startCautions, ...sheet.cautions].map((text) => (
          <li key={text}>{trueMinus(text)}</li>
        ))}
      </ul>
      <div className="playing">
        <div>
          <p className="label">The tone plays at</p>
          <Switch
            label="Level of the tone"
            value={choices.tone}
            onChange={(tone) => choose({ ...choices, tone })}
            options={tones.map((tone) => ({ value: tone, label: trueMinus(`${tone} dBFS`) }))}
          />
        </div>
        <div>
          <p className="label">The meter is honest up to</p>
          <Switch
            label="Frequency up to which the meter is honest"
            value={choices.meter}
            onChange={(meter) => choose({ ...choices, meter })}
            options={[
              { value: '1000', label: '1 kHz' },
              { value: '20000', label: '20 kHz' },
            ]}
          />
        </div>
      </div>
      <Sources sheet={sheet} busy={busy} wish={wish} />
      {sheet.channels.length === 0 ? null : (
        <section aria-labelledby="channels">
          <h2 id="channels" className="h2s">
            Channels{' '}
            <small>
              {done} of {sheet.channels.length} stand
            </small>
          </h2>
          <ul className="channels">
            {sheet.channels.map((row) => (
              <ChannelCard
                key={row.holdPoint}
                row={row}
                next={row.holdPoint === next?.holdPoint}
                busy={busy}
                style={style}
                onRead={read}
              />
            ))}
          </ul>
        </section>
      )}
      <CannotTell sheet={sheet} job={job} />
    </Page>
  );
}

interface SourcesProps {
  sheet: GainSheet;
  busy: boolean;
  wish: ReturnType<typeof useWish>['wish'];
}

function Sources({ sheet, busy, wish }: SourcesProps) {
  if (sheet.sources.length === 0) return null;
  return (
    <section className="sources" aria-labelledby="sources">
      <h2 id="sources" className="h2s">
        Source <small>how many volts it gives before it distorts</small>
      </h2>
      <ul className="channels">
        {sheet.sources.map(({ source, says, state, holdPoint }) => (
          <li key={source} className={`channel ${state ?? ''}`} data-point={holdPoint ?? undefined}>
            <h3>
              <b>{source}</b>
              <span>{trueMinus(says)}</span>
              {state === null ? null : (
                <span className="state">
                  <Icon name={tagOf[state]} />
                  {state}
                </span>
              )}
            </h3>
            {holdPoint === null ? null : (
              <VoltsField
                label={`Volts of ${source} at its last clean step`}
                hint="RMS, at the last volume step that does not distort"
                busy={busy}
                verdict={() => null}
                keep={`Keep ${source}`}
                onKeep={(value) =>
                  wish({
                    command: 'giveEvidence',
                    holdPoints: [holdPoint],
                    evidence: { how: 'measured', value, unit: 'V' },
                  })
                }
              />
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function CannotTell({ sheet, job }: { sheet: GainSheet; job: string }) {
  const lines = [
    ...sheet.sources.flatMap(({ source, needs }) => (needs === null ? [] : [`${source}: ${needs}`])),
    ...sheet.channels.flatMap(({ terminal, needs, hiss }) =>
      [...needs, ...hiss.flatMap((one) => (one.needs === null ? [] : [`${one.needs} (hiss of ${one.driver})`]))].map(
        (missing) => `${terminal}: ${missing}`,
      ),
    ),
  ];
  if (lines.length === 0) return null;
  return (
    <section className="untold" aria-labelledby="untold">
      <h2 id="untold" className="h2s">
        Cannot be told <small>what is not known yet</small>
      </h2>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <button type="button" className="btn" onClick={() => goTo({ page: 'plan', job, part: null })}>
        Say it in the plan
      </button>
    </section>
  );
}
