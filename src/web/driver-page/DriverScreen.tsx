// A driver in this system: which limit binds where, what the high-pass moves, and the sheet held against itself.
import './driver-page.css';
import { useMemo, useState } from 'react';
import { limitsPlot, travelPlot } from '../../charts/drivers/driver-plots.ts';
import { fixedText, frequencyText, significantText } from '../../charts/number-words.ts';
import { planView } from '../../job/rules/plan-view.ts';
import type { PlanChange } from '../../plan/changes.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { Pick } from '../part-editor/choices.tsx';
import { NumberInput } from '../part-editor/inputs.tsx';
import { type EditedPart, PartEditor } from '../part-editor/PartEditor.tsx';
import { partLabel } from '../part-editor/part-facts.ts';
import { quantities } from '../part-editor/quantity.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { usePlan } from '../plan-lanes/use-plan.ts';
import { PlotView } from '../plot/PlotView.tsx';
import { levelReadout, millimetreReadout } from '../plot/readout.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { headOf } from '../shop/job-words.ts';
import { useJob } from '../shop/use-job.ts';
import {
  cornersFor,
  type DriverInSystem,
  driverInSystem,
  highPassRows,
  limitCurves,
  safeHighPass,
  withHighPass,
} from './driver-model.ts';
import { driverName, driverSentence, limitsSentence, travelSentence } from './driver-words.ts';
import { HighPassTable } from './HighPassTable.tsx';
import { ImpedancePanel } from './impedance/ImpedancePanel.tsx';
import { useImpedance } from './impedance/use-impedance.ts';
import { SafeHighPassPanel } from './SafeHighPassPanel.tsx';
import { SheetPanel } from './SheetPanel.tsx';

interface DriverScreenProps {
  job: string;
  driver: string | null;
}

export function DriverScreen({ job, driver }: DriverScreenProps) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <DriverOf view={value} asked={driver} key={driver} />;
}

/** Channels of like drivers that play the same from the same corner: left and right are set together. */
function alikeChannels(plan: Plan, system: DriverInSystem): PartOf<'channel'>[] {
  const view = planView(plan);
  const { driver, highPassHz } = system;
  return plan.driver
    .filter(({ kind, make, model }) => kind === driver.kind && make === driver.make && model === driver.model)
    .flatMap(({ id }) => view.lanesOf(id).flatMap(({ channels }) => channels))
    .filter(({ highPass, id }) => id === system.channel.id || (highPass?.fHz ?? null) === highPassHz);
}

function DriverOf({ view, asked }: { view: JobView; asked: string | null }) {
  const ofJob = usePlan(view);
  const { plan, undo } = ofJob;
  const job = view.job.id;
  const driver = plan.driver.find(({ id }) => id === asked) ?? plan.driver[0];
  const system = useMemo(() => (driver === undefined ? null : driverInSystem(planView(plan), driver)), [plan, driver]);
  const [edited, setEdited] = useState<EditedPart | null>(null);
  // What was measured stays when the plan takes it, and more of the driver is known than before.
  const impedance = useImpedance();
  const toPlan: MainAction = {
    text: 'Back to the plan',
    small: 'lanes and findings',
    onPress: () => goTo({ page: 'plan', job, part: null }),
  };
  const head = { head: headOf(view, job), job, stage: 1, name: 'driver-page', title: 'Driver' } as const;
  const choice =
    driver === undefined ? null : (
      <Pick
        label="Driver"
        none="choose a driver"
        value={driver.id}
        options={plan.driver.map(({ id }) => ({ value: id, words: partLabel(plan, id) }))}
        onChange={(id) => goTo({ page: 'driver', job, driver: id ?? null }, { replace: true })}
      />
    );
  const editor =
    edited === null ? null : (
      <PartEditor key={`${edited.kind} ${edited.id}`} view={view} edited={edited} onClose={() => setEdited(null)} />
    );
  if (driver === undefined || system === null) {
    return (
      <Page {...head} says="The plan has no driver yet." bar={{ undo, main: toPlan }}>
        <p className="said">
          A driver of the plan shows its limits here, against the amplifier and the box that it gets.
        </p>
      </Page>
    );
  }
  const measured = (
    <ImpedancePanel driver={driver} impedance={impedance} onChange={(change) => void ofJob.actions.change(change)} />
  );
  if ('needs' in system) {
    const [lane] = planView(plan).lanesOf(driver.id);
    const [channel] = lane?.channels ?? [];
    const missing = (): MainAction => {
      if (/amplifier/.test(system.needs) && lane !== undefined) {
        const onPress = () => goTo({ page: 'coils', job, load: lane.load.id });
        return { text: 'Look at its wiring', small: system.needs, onPress };
      }
      if (/crossover/.test(system.needs) && channel !== undefined) {
        const onPress = () => setEdited({ kind: 'channel', id: channel.id });
        return { text: `Set the crossover of ${channel.id}`, small: system.needs, onPress };
      }
      if (/box/.test(system.needs)) {
        const onPress = () => goTo({ page: 'box', job, driver: driver.id });
        return { text: 'Look at its box', small: system.needs, onPress };
      }
      const onPress = () => setEdited({ kind: 'driver', id: driver.id });
      return { text: `Type what is missing of ${driver.id}`, small: system.needs, onPress };
    };
    return (
      <Page
        {...head}
        says={`Nothing can be forecast for ${driverName(driver)} yet.`}
        bar={{ undo, seconds: [{ text: 'Plan', onPress: toPlan.onPress }], main: missing() }}
      >
        <div className="dchs">{choice}</div>
        <p className="said">
          Not known: <b>{system.needs}</b>. With it, the limits by travel, heat and amplifier are drawn here.
        </p>
        <div className="dgrid one">
          <SheetPanel
            driver={driver}
            onEdit={() => setEdited({ kind: 'driver', id: driver.id })}
            onChange={(change) => void ofJob.actions.change(change)}
          />
        </div>
        {measured}
        {editor}
      </Page>
    );
  }
  return (
    <>
      <Known
        system={system}
        view={view}
        ofJob={ofJob}
        choice={choice}
        head={head}
        measured={measured}
        onEdit={setEdited}
      />
      {editor}
    </>
  );
}

interface KnownProps {
  system: DriverInSystem;
  view: JobView;
  ofJob: ReturnType<typeof usePlan>;
  choice: React.ReactNode;
  measured: React.ReactNode;
  head: { head: ReturnType<typeof headOf>; job: string; stage: number; name: string; title: string };
  onEdit: (part: EditedPart) => void;
}

function Known({ system, view, ofJob, choice, head, measured, onEdit }: KnownProps) {
  const style = useNumbers();
  const { plan, actions, undo } = ofJob;
  const { driver, channel, lane, range, highPassHz, lowPassHz, ampVrms } = system;
  const safe = useMemo(() => safeHighPass(system), [system]);
  const wanted = safe.safeHz !== null && (highPassHz ?? 0) < 0.995 * safe.safeHz ? safe.safeHz : highPassHz;
  const [tried, setTried] = useState<number | null | undefined>(undefined);
  const looked = tried === undefined ? wanted : tried;
  const corners = useMemo(() => cornersFor(highPassHz, safe.safeHz), [highPassHz, safe]);
  const rows = useMemo(() => {
    const all = corners.includes(looked) ? corners : [...corners, looked];
    return highPassRows(
      system,
      [...all].sort((a, b) => (a ?? 0) - (b ?? 0)),
    );
  }, [system, corners, looked]);
  const plannedRow = rows.find(({ planned }) => planned) ?? rows[0];
  const lookedRow = rows.find(({ hz }) => hz === looked) ?? plannedRow;
  const plans = useMemo(() => limitCurves(system, withHighPass(system, highPassHz)), [system, highPassHz]);
  const looks = useMemo(() => limitCurves(system, withHighPass(system, looked)), [system, looked]);
  const amplifier = `amp ${lane.load.amplifier?.replace('/', '') ?? ''}`;
  const subject = `${driverName(driver)} at ${amplifier}`;
  const xmaxMm = 1000 * system.driven.xmaxM;
  const common = { style, subject, range, fHz: plans.fHz };
  const limits = limitsPlot({
    ...common,
    sentence: limitsSentence(looks, lookedRow, style),
    travelDb: looks.travelDb,
    heatDb: looks.heatDb,
    heatW: driver.thermalW ?? null,
    amplifierDb: looks.amplifierDb,
    amplifier,
    highPassHz: looked,
    lowPassHz,
    crossing: looks.crossing,
  });
  const from = (hz: number | null) => (hz === null ? 'without high-pass' : `from ${frequencyText(hz, style)}`);
  const travel = travelPlot({
    ...common,
    sentence: travelSentence(lookedRow, xmaxMm, style),
    voltRms: ampVrms,
    xmaxMm,
    travelMm: looks.travelMm,
    label: from(looked),
    plannedMm: looked === highPassHz ? null : plans.travelMm,
    plannedLabel: `${from(highPassHz)}, planned`,
  });
  const alike = alikeChannels(plan, system);
  const use = () => {
    if (looked === null) return;
    const changes = alike.map((each): PlanChange => {
      const highPass = { family: system.edge.family, order: system.edge.order, fHz: looked };
      return { part: 'channel', id: each.id, value: { ...each, highPass } };
    });
    void actions.change(...changes).then((done) => done && setTried(undefined));
  };
  const job = view.job.id;
  const toPlan = () => goTo({ page: 'plan', job, part: null });
  const asPlanned = looked === highPassHz || looked === null;
  const main: MainAction = asPlanned
    ? { text: 'Back to the plan', small: 'nothing is changed here', onPress: toPlan }
    : {
        text: `Use ${frequencyText(looked, style)}${alike.length === 2 ? ' for both' : ''}`,
        small: alike.map(({ id }) => id).join(' and '),
        onPress: use,
      };
  return (
    <Page
      {...head}
      says={driverSentence(system, plannedRow, lookedRow, safe, style)}
      bar={{
        undo,
        why: 'What counts is where the amplifier clips: the customer turns it up.',
        seconds: [
          { text: 'Its box', onPress: () => goTo({ page: 'box', job, driver: driver.id }) },
          ...(asPlanned ? [] : [{ text: 'Plan', onPress: toPlan }]),
        ],
        main,
      }}
    >
      {actions.error ? <ErrorCard error={actions.error} /> : null}
      <div className="dchs">
        {choice}
        <NumberInput
          label="Try a high-pass at"
          quantity={quantities.hertz}
          range={{ min: 5, max: 20_000 }}
          value={looked ?? undefined}
          onTyped={(entry) => ('value' in entry ? setTried(entry.value ?? null) : undefined)}
        />
        <p>
          <b>{driverName(driver)}</b>, {significantText(system.driven.driver.reOhm, 3, style)} ohm direct, stroke{' '}
          {fixedText(xmaxMm, xmaxMm < 1 ? 2 : 1, style)} mm. <b>{amplifier}</b> clips at {fixedText(ampVrms, 1, style)}{' '}
          V.
        </p>
      </div>
      <div className="dgrid">
        <div>
          <section aria-labelledby="limits">
            <h2 id="limits">
              Limits <small>loudest clean level at 1 m, each limit alone</small>
            </h2>
            <PlotView spec={limits} heightPx={300} readout={levelReadout(style)} />
          </section>
          <section aria-labelledby="travel">
            <h2 id="travel">
              Cone travel <small>at {fixedText(ampVrms, 1, style)} V, peak one way</small>
            </h2>
            <PlotView spec={travel} heightPx={210} readout={millimetreReadout(style)} />
          </section>
        </div>
        <div>
          <HighPassTable rows={rows} order={system.edge.order} looked={looked} onLook={setTried} />
          <SafeHighPassPanel safe={safe} order={system.edge.order} channel={channel.id} />
          <SheetPanel
            driver={driver}
            onEdit={() => onEdit({ kind: 'driver', id: driver.id })}
            onChange={(change) => void actions.change(change)}
          />
        </div>
      </div>
      {measured}
    </Page>
  );
}
