// The box of a driver: response, travel, port and impedance as it is changed, room before the cone, fixing, cut list.
import '../driver-page/driver-page.css';
import './box-page.css';
import { useMemo, useState } from 'react';
import { impedancePlot, portPlot, responsePlotOf, travelPlot } from '../../charts/drivers/driver-plots.ts';
import { fixedText, frequencyText, significantText } from '../../charts/number-words.ts';
import type { PlanChange } from '../../plan/changes.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { JobView } from '../api-client.ts';
import { driverName, travelSentence } from '../driver-page/driver-words.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { Pick } from '../part-editor/choices.tsx';
import { type EditedPart, PartEditor } from '../part-editor/PartEditor.tsx';
import { freshPartId, partLabel } from '../part-editor/part-facts.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Facts } from '../parts/Facts.tsx';
import { useTyped } from '../parts/use-typed.ts';
import { usePlan } from '../plan-lanes/use-plan.ts';
import { PlotView } from '../plot/PlotView.tsx';
import { levelReadout, millimetreReadout, unitReadout } from '../plot/readout.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { headOf } from '../shop/job-words.ts';
import { useJob } from '../shop/use-job.ts';
import { BoxControls, kindNames } from './BoxControls.tsx';
import { BoxSection } from './BoxSection.tsx';
import {
  type BoxSystem,
  boxCurves,
  boxRange,
  boxSystem,
  type Carcass,
  closedFacts,
  coneMm,
  cutList,
  driverTakesL,
  holdingForce,
  portOf,
  portUsualMps,
  roomBefore,
  startingBox,
  type TriedBox,
  usualPanelMm,
} from './box-model.ts';
import { CutTable } from './CutTable.tsx';
import { Room } from './Room.tsx';

interface BoxScreenProps {
  job: string;
  driver: string | null;
}

export function BoxScreen({ job, driver }: BoxScreenProps) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <BoxOf view={value} asked={driver} key={driver} />;
}

function BoxOf({ view, asked }: { view: JobView; asked: string | null }) {
  const { plan, undo } = usePlan(view);
  const job = view.job.id;
  const boxed = plan.driver.find(({ kind, enclosure }) => kind === 'sub' || enclosure !== undefined);
  const driver = plan.driver.find(({ id }) => id === asked) ?? boxed ?? plan.driver[0];
  const system = useMemo(() => (driver === undefined ? null : boxSystem(plan, driver)), [plan, driver]);
  const choice =
    driver === undefined ? null : (
      <Pick
        label="Driver"
        none="choose a driver"
        value={driver.id}
        options={plan.driver.map(({ id }) => ({ value: id, words: partLabel(plan, id) }))}
        onChange={(id) => goTo({ page: 'box', job, driver: id ?? null }, { replace: true })}
      />
    );
  if (driver === undefined || system === null || 'needs' in system) {
    const needs = system !== null && 'needs' in system ? system.needs : null;
    return (
      <Page
        name="box-page"
        title="Box"
        head={headOf(view, job)}
        job={job}
        stage={1}
        says={
          driver === undefined ? 'The plan has no driver yet.' : `No box can be tried for ${driverName(driver)} yet.`
        }
        bar={{
          undo,
          main: {
            text: 'Back to the plan',
            small: needs ?? 'lanes and findings',
            onPress: () => goTo({ page: 'plan', job, part: null }),
          },
        }}
      >
        <div className="dchs">{choice}</div>
        {needs === null ? null : (
          <p className="said">
            Not known: <b>{needs}</b>. With it, boxes are compared here.
          </p>
        )}
      </Page>
    );
  }
  return <Tried view={view} driver={driver} system={system} choice={choice} />;
}

interface TriedProps {
  view: JobView;
  driver: PartOf<'driver'>;
  system: BoxSystem;
  choice: React.ReactNode;
}

function boxName({ kind, netL }: TriedBox, litres: (value: number) => string): string {
  return kind === 'infinite-baffle' ? 'no box' : `${litres(netL)} litre ${kindNames[kind]}`;
}

function Tried({ view, driver, system, choice }: TriedProps) {
  const style = useNumbers();
  const { plan, actions, undo } = usePlan(view);
  const job = view.job.id;
  const enclosure = plan.enclosure.find(({ id }) => id === driver.enclosure);
  const planned = useMemo(() => startingBox(system, enclosure), [system, enclosure]);
  const [change, setChange, forgetChange] = useTyped<Partial<TriedBox>>(`box.${job}.${driver.id}`, {});
  const tried = useMemo((): TriedBox => ({ ...planned, ...change }), [planned, change]);
  const usualMm = usualPanelMm(tried.netL, (system.drivers * system.ampVrms ** 2) / system.driver.reOhm);
  const [carcass, setCarcass] = useTyped<Carcass>(`carcass.${job}.${driver.id}`, {
    widthMm: Math.max(300, Math.ceil(((coneMm(driver) ?? 250) * 1.9) / 10) * 10),
    heightMm: Math.max(300, Math.ceil(((coneMm(driver) ?? 250) * 1.4) / 10) * 10),
    panelMm: enclosure?.panelMm ?? usualMm,
    takenL: driverTakesL(driver) ?? 0,
  });
  const [edited, setEdited] = useState<EditedPart | null>(null);
  const curves = useMemo(() => boxCurves(system, tried), [system, tried]);
  const changed = Object.keys(change).length > 0 && JSON.stringify(tried) !== JSON.stringify(planned);
  const before = useMemo(
    () => (changed && enclosure !== undefined ? boxCurves(system, planned) : null),
    [system, planned, changed, enclosure],
  );
  const closed = closedFacts(system, tried);
  const litres = (value: number) => significantText(value, 3, style);
  const port = portOf(tried);
  const room = roomBefore(driver);
  const list = cutList(tried, carcass);
  const boxMass =
    enclosure?.massKg ?? (list === null ? undefined : list.massKg + (driver.massKg ?? 0) * system.drivers);
  const force = boxMass === undefined ? null : holdingForce(boxMass, enclosure?.structuralFixings);
  const xmaxMm = driver.xmaxMm ?? 0;
  const mostMm = Math.max(...curves.travelMm);
  const tightestHz = curves.fHz[curves.travelMm.indexOf(mostMm)];
  const name = boxName(tried, litres);
  const far = curves.f3Hz === null ? '' : `, 3 dB down at ${frequencyText(curves.f3Hz, style)}`;
  const says = `${name === 'no box' ? 'Without a box it is' : `The ${name} box is`}${closed ? ` Q ${fixedText(closed.qtc, 2, style)}` : tried.kind === 'vented' ? ` tuned to ${frequencyText(tried.tuningHz, style)}` : ' free'}${far}. ${mostMm <= xmaxMm ? 'The cone stays inside its travel.' : `At full power the cone passes its travel near ${frequencyText(tightestHz, style)}.`}`;
  const subject = `${driverName(driver)} in ${name === 'no box' ? 'no box' : `a ${name} box`}`;
  const common = { style, subject, range: boxRange, fHz: curves.fHz };
  const both = (now: readonly number[], old: readonly number[] | undefined) => [
    { values: now, label: name },
    ...(old === undefined ? [] : [{ values: old, label: `${boxName(planned, litres)}, planned`, planned: true }]),
  ];
  const state = `${subject}. Half space, without the cabin; forecast.`;
  const response = responsePlotOf({
    ...common,
    state,
    sentence:
      curves.f3Hz === null
        ? 'It never comes to within 3 dB of its level far above.'
        : `3 dB down at ${frequencyText(curves.f3Hz, style)}; a closed cabin adds bass below about 80 Hz.`,
    curves: both(curves.responseDb, before?.responseDb),
    ...(curves.f3Hz === null
      ? {}
      : { mark: { fHz: curves.f3Hz, value: -3, label: `\u22123 dB at ${frequencyText(curves.f3Hz, style)}` } }),
  });
  const travel = travelPlot({
    ...common,
    sentence: travelSentence(
      {
        hz: null,
        travelMm: mostMm,
        tightestHz,
        gainDb: 0,
        limit: 'excursion',
        planned: false,
        withinStroke: mostMm <= xmaxMm,
      },
      xmaxMm,
      style,
    ),
    voltRms: system.ampVrms,
    xmaxMm,
    travelMm: curves.travelMm,
    label: name,
    plannedMm: before?.travelMm ?? null,
    plannedLabel: `${boxName(planned, litres)}, planned`,
  });
  const fastest = curves.portMps === null ? 0 : Math.max(...curves.portMps);
  const fastestHz = curves.portMps === null ? 0 : curves.fHz[curves.portMps.indexOf(fastest)];
  const airs =
    curves.portMps === null
      ? null
      : portPlot({
          ...common,
          state,
          limitMps: portUsualMps,
          sentence:
            fastest > portUsualMps
              ? `Air reaches ${fixedText(fastest, 0, style)} m/s at ${frequencyText(fastestHz, style)}: ${fixedText((tried.portAreaCm2 * fastest) / portUsualMps, 0, style)} cm\u00b2 would keep it quiet.`
              : `Air reaches ${fixedText(fastest, 0, style)} m/s at ${frequencyText(fastestHz, style)}: quiet enough.`,
          curves: both(curves.portMps, before?.portMps ?? undefined),
          mark: {
            fHz: fastestHz,
            value: fastest,
            label: `${fixedText(fastest, 0, style)} m/s`,
            bad: fastest > portUsualMps,
          },
        });
  const least = Math.min(...curves.impedanceOhm);
  const ohms = impedancePlot({
    ...common,
    state,
    sentence: `The amplifier sees at least ${fixedText(least, 1, style)} ohm; ${tried.kind === 'vented' ? 'the dip between the two peaks is the tuning' : 'the peak is the resonance in the box'}.`,
    curves: both(curves.impedanceOhm, before?.impedanceOhm),
  });
  const put = () => {
    const id = enclosure?.id ?? freshPartId(plan, 'enclosure');
    const { kind, netL, fillGain, tuningHz, portAreaCm2 } = tried;
    const { netL: _, tuningHz: __, portAreaCm2: ___, fillGain: ____, ...kept } = enclosure ?? { id };
    const value: PartOf<'enclosure'> = {
      ...kept,
      id,
      kind,
      ...(kind === 'infinite-baffle' ? {} : { netL, fillGain, panelMm: carcass.panelMm }),
      ...(kind === 'vented' ? { tuningHz, portAreaCm2 } : {}),
    };
    const changes: PlanChange[] = [{ part: 'enclosure', id, value }];
    if (enclosure === undefined) changes.push({ part: 'driver', id: driver.id, value: { ...driver, enclosure: id } });
    void actions.change(...changes).then((done) => done && forgetChange());
  };
  const main: MainAction =
    enclosure !== undefined && !changed
      ? {
          text: 'Back to the plan',
          small: `${name} is in the plan`,
          onPress: () => goTo({ page: 'plan', job, part: null }),
        }
      : {
          text: `Take the ${name} box`.replace('the no box', 'no box').replace('no box box', 'no box'),
          small: enclosure === undefined ? `for ${driver.id}` : `instead of ${boxName(planned, litres)}`,
          onPress: put,
        };
  return (
    <Page
      name="box-page"
      title="Box"
      head={headOf(view, job)}
      job={job}
      stage={1}
      says={says}
      bar={{
        undo,
        why: 'Bolted to structure, not to trim: a loose box is a missile.',
        seconds: [{ text: 'Its limits', onPress: () => goTo({ page: 'driver', job, driver: driver.id }) }],
        main,
      }}
    >
      {actions.error ? <ErrorCard error={actions.error} /> : null}
      <BoxControls
        tried={tried}
        system={system}
        choice={choice}
        onChange={(next) => setChange({ ...change, ...next })}
      />
      <div className="bgrid">
        <div>
          {list === null ? (
            <p className="said">
              {tried.kind === 'infinite-baffle'
                ? 'A door or a shelf is no box: nothing is sawn.'
                : 'The panels leave no room inside. Make it wider or higher.'}
            </p>
          ) : (
            <BoxSection
              list={list}
              widthMm={carcass.widthMm}
              panelMm={carcass.panelMm}
              coneMm={coneMm(driver) ?? 200}
              depthMm={driver.depthMm ?? 100}
              strokeMm={driver.xmechMm ?? xmaxMm}
              room={room}
              netL={tried.netL}
              forwardN={force?.forwardN ?? 0}
              fixings={enclosure?.structuralFixings}
              vented={tried.kind === 'vented'}
            />
          )}
          <Room driver={driver} list={list} onEdit={setEdited} />
          <Facts
            label="Fixing"
            rows={[
              [
                'Box and driver',
                boxMass === undefined
                  ? ''
                  : `${significantText(boxMass, 3, style)} kg${enclosure?.massKg === undefined ? ', reckoned' : ''}`,
              ],
              [
                'Must hold forward, 20 times its weight',
                force === null ? '' : `${fixedText(force.forwardN / 1000, 1, style)} kN`,
              ],
              ['To the side, 10 times', force === null ? '' : `${fixedText(force.sidewaysN / 1000, 1, style)} kN`],
              [
                'Board',
                tried.kind === 'infinite-baffle'
                  ? ''
                  : `${fixedText(carcass.panelMm, 0, style)} mm${carcass.panelMm < usualMm ? `: thin, ${usualMm} mm for this volume and power` : ''}`,
              ],
              [
                'Bolts into structure',
                enclosure?.structuralFixings === undefined
                  ? 'not said: two M8 at least'
                  : `${enclosure.structuralFixings}${force?.eachN ? `, ${fixedText(force.eachN / 1000, 1, style)} kN each` : ''}`,
              ],
              [
                'Port, each',
                port === null
                  ? ''
                  : `${fixedText(1000 * port.lengthM, 0, style)} mm long, pipe sounds at ${frequencyText(port.firstPipeResonanceHz, style)}`,
              ],
            ]}
          />
          {enclosure === undefined ? null : (
            <button type="button" className="btn" onClick={() => setEdited({ kind: 'enclosure', id: enclosure.id })}>
              Mass, fixings, covers
            </button>
          )}
          <CutTable list={list} carcass={carcass} onChange={setCarcass} />
        </div>
        <div>
          <section aria-labelledby="response">
            <h2 id="response">
              Response <small>box and driver alone, without the cabin</small>
            </h2>
            <PlotView spec={response} heightPx={220} readout={levelReadout(style)} />
          </section>
          <section aria-labelledby="travel">
            <h2 id="travel">
              Cone travel <small>at {fixedText(system.ampVrms, 1, style)} V, peak one way</small>
            </h2>
            <PlotView spec={travel} heightPx={200} readout={millimetreReadout(style)} />
          </section>
          {airs === null ? null : (
            <section aria-labelledby="port">
              <h2 id="port">Air in the port</h2>
              <PlotView spec={airs} heightPx={180} readout={unitReadout(style, 'm/s', 1)} />
            </section>
          )}
          <section aria-labelledby="impedance">
            <h2 id="impedance">
              Impedance <small>what the amplifier sees</small>
            </h2>
            <PlotView spec={ohms} heightPx={180} readout={unitReadout(style, 'ohm', 1)} />
          </section>
        </div>
      </div>
      {edited === null ? null : (
        <PartEditor key={`${edited.kind} ${edited.id}`} view={view} edited={edited} onClose={() => setEdited(null)} />
      )}
    </Page>
  );
}
