// What a microphone hears now, in bands: the average, how far it moves along the path, and this moment.
import './live.css';
import { useRef, useState } from 'react';
import { fixedText } from '../../charts/number-words.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import type { JobView } from '../api-client.ts';
import { useDevices } from '../audio/devices.ts';
import type { BandsNow } from '../audio/listener-messages.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { Facts } from '../parts/Facts.tsx';
import { Field } from '../parts/Field.tsx';
import { Finding } from '../parts/Finding.tsx';
import { Switch } from '../parts/Switch.tsx';
import { durationText } from '../parts/times.ts';
import { coversText } from '../plan/cover-words.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { BarProps } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { useStage } from '../shell/use-stage.ts';
import { headOf } from '../shop/job-words.ts';
import { microphoneOf, useMicrophones } from '../shop/microphones.ts';
import { useJob } from '../shop/use-job.ts';
import { takeToRecord } from '../take/new-take.ts';
import { allTogether } from '../take/take-wish.ts';
import { BandDisplay, type BandHandle } from './BandDisplay.tsx';
import { BandTable } from './BandTable.tsx';
import { HeadPath } from './HeadPath.tsx';
import { type Agreed, agreedLevels, aWeightedDb, bandsText, liveSentence, truedLevels } from './live-model.ts';
import { useLive } from './use-live.ts';

/** 30 s along a path are enough for a steady average of a moving microphone. */
const keepS = 30;
const noiseLevelDbfs = -20;

export function LiveScreen({ id }: { id: string }) {
  const { value, error } = useJob(id);
  if (!value) return <JobAway job={id} error={error} />;
  return <Live view={value} />;
}

export function LiveWithoutJob() {
  return <Live view={null} />;
}

function Live({ view }: { view: JobView | null }) {
  const stage = useStage(view ?? undefined);
  const style = useNumbers();
  const [inputId, setInputId] = useState<string | null>(null);
  const [agreed, setAgreed] = useState<Agreed>('none');
  const [plays, setPlays] = useState<'here' | 'elsewhere'>('here');
  const [table, setTable] = useState(false);
  const { value: microphones } = useMicrophones();
  const display = useRef<BandHandle>(null);
  const show = (bands: BandsNow) => {
    const averageDb = truedLevels(bands.averageDb, bands.fHz, microphone);
    display.current?.show({
      momentDb: truedLevels(bands.momentDb, bands.fHz, microphone),
      averageDb,
      spreadDb: bands.spreadDb,
      agreedDb: agreedLevels(averageDb, bands.fHz, agreed),
    });
  };
  const live = useLive(view?.job.id ?? null, show);
  const { phase, applied, level, bands, refusal, positionS, broken } = live.state;
  const { inputs } = useDevices(applied?.deviceId ?? null);
  const microphone = applied ? microphoneOf(microphones ?? [], applied.label) : null;
  const calibrated = microphone?.fullScaleSplDb !== undefined;
  const unit = calibrated ? 'dB SPL' : 'dBFS';
  const averageDb = bands ? truedLevels(bands.averageDb, bands.fHz, microphone) : null;
  const agreedDb = bands && averageDb ? agreedLevels(averageDb, bands.fHz, agreed) : null;
  const silent = bands !== null && bands.seconds > 1.5 && level !== null && level.highestDbfs < -110;
  const says = refusal
    ? refusal.message
    : silent
      ? 'The microphone is open, but no sound comes from it.'
      : bands && averageDb
        ? liveSentence({ ...bands, fHz: bands.nominalHz, averageDb }, agreedDb, style)
        : 'Play noise, move the microphone round the head, and read the average.';
  const designed = designTrack({
    kind: 'noise',
    rateHz: 48_000,
    stimulusS: keepS,
    levelDbfs: noiseLevelDbfs,
    side: 'both',
  });
  const keep = () => {
    if (!view || !designed.ok) return;
    const take = takeToRecord({ view, track: designed.value, place: allTogether, microphone });
    live.keep({ take, track: designed.value, plays, outputId: null, inputId });
  };
  const gone = positionS === null || !designed.ok ? 0 : Math.max(0, positionS) / designed.value.durationS;
  const bar: BarProps =
    phase === 'keeping'
      ? {
          why: 'Go round the head slowly, at the height of the ears.',
          main: {
            text: plays === 'here' ? 'Stop this take' : 'Stop and keep',
            small:
              positionS === null
                ? 'play the noise now'
                : `${durationText(Math.max(0, positionS))} of ${durationText(designed.ok ? designed.value.durationS : keepS)}`,
            icon: 'halt',
            onPress: live.stop,
          },
        }
      : {
          why: view
            ? `${coversText(view.job.covers)[0].toUpperCase()}${coversText(view.job.covers).slice(1)}.`
            : undefined,
          seconds: [
            ...(phase === 'listening'
              ? [
                  { text: 'Start the average anew', onPress: live.startAverage },
                  { text: 'Let it go', onPress: live.stop },
                ]
              : []),
          ],
          main:
            phase === 'idle'
              ? {
                  text: 'Listen',
                  small: 'opens the microphone',
                  icon: 'microphone',
                  onPress: () => void live.listen(inputId),
                }
              : view
                ? {
                    text: plays === 'here' ? 'Play noise and keep' : 'Keep a take',
                    small: `${keepS} s along the path`,
                    icon: 'record',
                    onPress: keep,
                  }
                : { text: 'Let it go', icon: 'halt', onPress: live.stop },
        };
  return (
    <Page
      name="live-bands"
      title="Bands"
      head={
        view
          ? headOf(view, view.job.id)
          : { id: { text: 'Kickpanel' }, fields: [{ name: 'Bands', text: 'without a job' }] }
      }
      {...(view ? { job: view.job.id, stage, held: phase === 'keeping' } : {})}
      says={says}
      bar={bar}
    >
      <button
        type="button"
        className="unseen"
        data-key={phase === 'keeping' ? 'stop' : 'back'}
        tabIndex={-1}
        onClick={() =>
          phase === 'keeping' ? live.stop() : goTo(view ? { page: 'job', job: view.job.id } : { page: 'bench' })
        }
      >
        {phase === 'keeping' ? 'Stop' : 'Back'}
      </button>
      {refusal ? <Finding severity="stop" word="not heard" message={refusal.message} mend={refusal.mend} /> : null}
      {broken ? (
        <Finding
          severity="fix"
          word="broke off"
          message={broken}
          mend="What was recorded is kept and set aside. Take it again from the start."
        />
      ) : null}
      <div className="lg">
        <div>
          {bands ? (
            <BandDisplay
              fHz={bands.nominalHz}
              handle={display}
              says={averageDb ? `${says} ${bandsText(averageDb, bands.nominalHz, unit, style)}` : says}
              unit={unit}
            />
          ) : (
            <p className="said none">The bands appear here once a microphone is heard.</p>
          )}
          <ul className="k21">
            {agreed === 'none' ? null : (
              <li>
                <i className="tg3" />
                agreed sound ±3 dB
              </li>
            )}
            <li>
              <i className="av3" />
              average so far
            </li>
            <li>
              <i className="sp3" />
              spread along the path
            </li>
            <li>
              <i className="nw3" />
              this moment
            </li>
            {bands && averageDb ? (
              <li>
                <button type="button" className="linky" aria-expanded={table} onClick={() => setTable(!table)}>
                  {table ? 'Hide the values' : 'Values as a table'}
                </button>
              </li>
            ) : null}
          </ul>
          {table && bands && averageDb ? (
            <BandTable fHz={bands.nominalHz} averageDb={averageDb} spreadDb={bands.spreadDb} unit={unit} />
          ) : null}
        </div>
        <div>
          {phase === 'keeping' ? (
            <HeadPath share={gone} />
          ) : (
            <div className="wishes">
              <Field label="Microphone">
                {(given) => (
                  <select
                    {...given}
                    value={inputId ?? ''}
                    onChange={({ target }) => {
                      const chosen = target.value || null;
                      setInputId(chosen);
                      if (phase === 'listening') void live.listen(chosen);
                    }}
                  >
                    <option value="">As the computer is set</option>
                    {inputs.map(({ deviceId, label }) => (
                      <option key={deviceId} value={deviceId}>
                        {label}
                      </option>
                    ))}
                  </select>
                )}
              </Field>
              {view ? (
                <Switch
                  label="Where the noise plays"
                  value={plays}
                  onChange={setPlays}
                  options={[
                    { value: 'here', label: 'Play here' },
                    { value: 'elsewhere', label: 'Elsewhere' },
                  ]}
                />
              ) : null}
              <Switch
                label="Agreed sound"
                value={agreed}
                onChange={setAgreed}
                options={[
                  { value: 'none', label: 'No line' },
                  { value: 'level', label: 'Level' },
                  { value: 'falling', label: 'Falling' },
                ]}
              />
            </div>
          )}
          <Facts
            label="What is heard"
            rows={[
              ['Average over', bands ? durationText(bands.seconds) : null],
              [
                'Level now',
                bands && calibrated
                  ? `${fixedText(aWeightedDb(truedLevels(bands.momentDb, bands.fHz, microphone), bands.fHz), 0, style)} dB(A)`
                  : level
                    ? `${fixedText(level.rmsDbfs, 0, style)} dBFS, relative`
                    : null,
              ],
              ['Highest peak', level ? `${fixedText(level.highestDbfs, 1, style)} dBFS` : null],
              ['Microphone', microphone?.name ?? (applied ? 'not calibrated' : null)],
            ]}
          />
          <p className="lim21">
            This shows level, and level only. A driver past its limit, turned round or late can look perfect here:
            polarity and the sweep show those.
          </p>
        </div>
      </div>
    </Page>
  );
}
