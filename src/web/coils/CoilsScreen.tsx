// Every way to wire the coils of a load: what the amplifier sees, who gets the power, and the reading that proves it.
import './coils.css';
import { useState } from 'react';
import { fixedText, significantText } from '../../charts/number-words.ts';
import { leadOhm } from '../../job/rules/lead-readings.ts';
import { minimumOhm } from '../../job/rules/loads.ts';
import { planView } from '../../job/rules/plan-view.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { Pick } from '../part-editor/choices.tsx';
import { NumberInput } from '../part-editor/inputs.tsx';
import { partLabel } from '../part-editor/part-facts.ts';
import { quantities } from '../part-editor/quantity.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Switch } from '../parts/Switch.tsx';
import { usePlan } from '../plan-lanes/use-plan.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { countWords, headOf } from '../shop/job-words.ts';
import { useJob } from '../shop/use-job.ts';
import { allWirings } from './all-wirings.ts';
import { CoilTreeView } from './CoilTreeView.tsx';
import type { TerminalWay } from './TerminalPicture.tsx';
import { ohmText, type ShownWiring, WiringCard, wiringVerdict } from './WiringCard.tsx';
import { readingMeans, wiringFacts, wrongReadings } from './wiring-facts.ts';
import { coilsOf, joined, type NamedWiring, usualWirings, wiringKey } from './wirings.ts';

interface CoilsScreenProps {
  job: string;
  load: string | null;
}

export function CoilsScreen({ job, load }: CoilsScreenProps) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <Coils view={value} asked={load} key={load} />;
}

type Driver = PartOf<'driver'>;

/** What is asked "what if" beside the plan. */
interface WhatIf {
  drivers: number;
  coils: number;
  coilOhm: number;
}

/** The drivers of the load, or as many like the first as are asked for. */
function driversFor(planned: readonly Driver[], { drivers, coils, coilOhm }: WhatIf, asPlanned: boolean): Driver[] {
  if (asPlanned) return [...planned];
  const [first] = planned;
  const scale = first?.coilOhm === undefined || first.reOhm === undefined ? 0.85 : first.reOhm / first.coilOhm;
  return Array.from({ length: drivers }, (_, n) => ({
    ...first,
    id: planned[n]?.id ?? `${first?.id ?? 'D'}${'bcdefgh'[n - 1] ?? n}`,
    coils,
    coilOhm,
    reOhm: Number((scale * coilOhm).toPrecision(4)),
  }));
}

const terminalWays: Record<string, TerminalWay> = {
  'coil after coil': 'series',
  'coils side by side': 'parallel',
  'one coil, one left open': 'one',
};

/** Pictures for one driver of two coils; with the mistake that no meter sees. */
function shownWirings(drivers: readonly Driver[], facts: (wiring: NamedWiring) => ShownWiring | null): ShownWiring[] {
  const usual = usualWirings(drivers).flatMap((wiring) => facts(wiring) ?? []);
  if (drivers.length !== 1 || drivers[0].coils !== 2) return usual;
  const pictured = usual.map((wiring): ShownWiring => {
    const way = terminalWays[wiring.name];
    return way === undefined ? wiring : { ...wiring, way };
  });
  const series = pictured.find(({ way }) => way === 'series');
  return series === undefined
    ? pictured
    : [...pictured, { ...series, name: 'coil after coil, one turned', way: 'turned', turned: true }];
}

function Coils({ view, asked }: { view: JobView; asked: string | null }) {
  const style = useNumbers();
  const { plan, actions, undo } = usePlan(view);
  const parts = planView(plan);
  const job = view.job.id;
  const several = parts.lanes.find(({ load }) => load.network !== undefined && typeof load.network !== 'string');
  const lane = parts.lanes.find(({ load }) => load.id === asked) ?? several ?? parts.lanes[0];
  const planned = lane?.drivers ?? [];
  const planIf: WhatIf = { drivers: planned.length, coils: planned[0]?.coils ?? 1, coilOhm: planned[0]?.coilOhm ?? 4 };
  const [whatIf, setWhatIf] = useState<WhatIf | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const now = whatIf ?? planIf;
  const asPlanned = whatIf === null || JSON.stringify(whatIf) === JSON.stringify(planIf);
  const drivers = driversFor(planned, now, asPlanned);
  const lead = plan.lead.find(({ from }) => from !== undefined && from === lane?.load.amplifier);
  const wire = (lead && leadOhm(lead)) ?? 0;
  const least = lane && minimumOhm(lane);
  const shown = shownWirings(drivers, (wiring) => wiringFacts(wiring, drivers, lane, wire));
  const planKey = lane?.load.network === undefined ? null : wiringKey(lane.load.network);
  const isPlanned = (wiring: ShownWiring) => asPlanned && !wiring.turned && wiringKey(wiring.network) === planKey;
  const holding = shown.filter((wiring) => wiringVerdict(wiring, least, style)[0] === 'ok');
  const best = [...holding].sort((a, b) => (b.watt ?? 0) - (a.watt ?? 0))[0];
  const inPlan = shown.find(isPlanned);
  // A wiring of the plan that does not hold makes room for the one that does.
  const sound = inPlan !== undefined && wiringVerdict(inPlan, least, style)[0] !== 'stop' ? inPlan : undefined;
  const pick = shown.find(({ name }) => name === chosen) ?? sound ?? best ?? inPlan ?? shown[0];
  const amplifier = lane?.load.amplifier?.replace('/', '') ?? '';
  const name = drivers[0]?.kind === 'sub' ? 'the sub' : (drivers[0]?.name ?? 'the load');

  const says =
    lane === undefined || shown.length === 0
      ? 'No load has coils whose ohms are known.'
      : holding.length === 0
        ? `None of ${countWords(shown.length, 'way', 'ways').toLowerCase()} to wire ${name} holds.`
        : `Of ${countWords(shown.length, 'way', 'ways').toLowerCase()} to wire ${name}, ${countWords(holding.length, 'holds', 'hold').toLowerCase()}: ${best.name}, ${ohmText(best.ohm, style).replace(`${style.decimal}0 ohm`, ' ohm')}${best.watt === undefined ? '' : `, ${significantText(best.watt, 3, style)} W`}.`;

  const main: MainAction = mainOf();
  function mainOf(): MainAction {
    const back: MainAction = {
      text: 'Back to the plan',
      small: 'nothing is changed here',
      onPress: () => goTo({ page: 'plan', job, part: null }),
    };
    if (lane === undefined || pick === undefined) return back;
    if (isPlanned(pick)) return { ...back, small: `${pick.name} is in the plan` };
    const words = `Wire ${pick.name}`;
    const [severity] = wiringVerdict(pick, least, style);
    if (!asPlanned)
      return {
        text: words,
        small: 'opens when the drivers are those of the plan',
        waits: true,
        onPress: () => setWhatIf(null),
      };
    if (severity === 'stop')
      return { text: words, small: 'opens for a wiring that holds', waits: true, onPress: () => {} };
    const proof = `hold point: ${ohmText(pick.reads.midOhm, style)}${lead === undefined ? '' : ` at ${lead.id}`}`;
    const value = { ...lane.load, network: pick.network };
    return { text: words, small: proof, onPress: () => void actions.change({ part: 'load', id: lane.load.id, value }) };
  }

  const choose = (change: Partial<WhatIf>) => {
    setChosen(null);
    setWhatIf({ ...now, ...change });
  };
  return (
    <Page
      name="coils"
      title="Coil wiring"
      head={headOf(view, job)}
      job={job}
      stage={1}
      says={says}
      bar={{
        undo,
        why: 'Meter on the lead, amplifier off, before it is plugged in.',
        seconds: [{ text: 'Plan', onPress: () => goTo({ page: 'plan', job, part: null }) }],
        main,
      }}
    >
      {actions.error ? <ErrorCard error={actions.error} /> : null}
      {lane === undefined ? null : (
        <div className="chs">
          <Pick
            label="Load"
            none="choose a load"
            value={lane.load.id}
            options={parts.lanes.map(({ load }) => ({ value: load.id, words: partLabel(plan, load.id) }))}
            onChange={(load) => goTo({ page: 'coils', job, load: load ?? null }, { replace: true })}
          />
          <Numbers
            label="Drivers"
            values={[1, 2, 3, 4]}
            value={now.drivers}
            onChange={(count) => choose({ drivers: count })}
          />
          <Numbers label="Coils each" values={[1, 2]} value={now.coils} onChange={(coils) => choose({ coils })} />
          <Numbers
            label="Each coil, ohm"
            values={[1, 2, 4, 8]}
            value={now.coilOhm}
            onChange={(coilOhm) => choose({ coilOhm })}
          />
          <p>
            <b>Amp {amplifier || '?'}</b>{' '}
            {least === undefined ? 'lowest load not known' : `${significantText(least, 3, style)} ohm and up`}
            {asPlanned ? '' : '. This is not in the plan.'}
          </p>
        </div>
      )}
      <div className="coil-cards">
        {shown.map((facts) => (
          <WiringCard
            key={facts.name}
            facts={facts}
            chosen={facts.name === pick?.name}
            planned={isPlanned(facts)}
            amplifier={amplifier}
            least={least}
            onChoose={() => setChosen(facts.name)}
          />
        ))}
      </div>
      {pick === undefined ? null : <Proof pick={pick} shown={shown} drivers={drivers} wire={wire} lead={lead?.id} />}
      <AllWays drivers={drivers} facts={(wiring) => wiringFacts(wiring, drivers, lane, wire)} least={least} />
    </Page>
  );
}

interface NumbersProps {
  label: string;
  values: readonly number[];
  value: number;
  onChange: (value: number) => void;
}

function Numbers({ label, values, value, onChange }: NumbersProps) {
  const options = [...new Set([...values, value])]
    .sort((a, b) => a - b)
    .map((each) => ({ value: String(each), label: String(each) }));
  return (
    <div className="nr">
      <span>{label}</span>
      <Switch label={label} options={options} value={String(value)} onChange={(each) => onChange(Number(each))} />
    </div>
  );
}

interface ProofProps {
  pick: ShownWiring;
  shown: readonly ShownWiring[];
  drivers: readonly Driver[];
  wire: number;
  lead: string | undefined;
}

/** What the meter should read on the chosen wiring, and what another reading means. */
function Proof({ pick, shown, drivers, wire, lead }: ProofProps) {
  const style = useNumbers();
  const others = shown.filter(({ name, turned }) => name !== pick.name && !turned);
  const wrong = wrongReadings(pick, others, drivers, wire);
  const [typed, setTyped] = useState<number | undefined>(undefined);
  const means = typed === undefined ? null : readingMeans(pick, drivers, wire, typed);
  return (
    <section className="proof" aria-labelledby="proof">
      <h2 className="h2s" id="proof">
        What a wrong reading means{' '}
        <small>
          {pick.name}
          {lead === undefined ? '' : `, read at the amplifier's end of ${lead}`}
        </small>
      </h2>
      {wrong.length === 0 ? (
        <p className="said">Type the direct-current resistance of each coil: then every wrong reading can be told.</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col" className="num">
                Meter reads
              </th>
              <th scope="col">Most likely</th>
              <th scope="col">Told from the plan</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <td className="num">
                <b>{ohmText(pick.reads.midOhm, style)}</b>
              </td>
              <td>
                <b>{pick.name}, as it should be</b>
              </td>
              <td>polarity it cannot see: push the cone out with a 1.5 V cell</td>
            </tr>
            {wrong.map(({ what, reads, told }) => (
              <tr key={what}>
                <td className="num">{ohmText(reads, style)}</td>
                <td>{what}</td>
                <td>{told ? 'yes, by the meter alone' : 'no: look at the jumpers'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {wrong.length === 0 ? null : (
        <div className="means">
          <NumberInput
            label="The meter shows"
            hint="without the probes' own"
            quantity={quantities.ohms}
            range={{ min: 0, max: 10_000 }}
            value={typed}
            onTyped={(entry) => setTyped('value' in entry ? entry.value : undefined)}
          />
          <p className="said" role="status">
            {means ?? 'Type what it shows: one mistake that explains it is told, or two where no single one does.'}
          </p>
        </div>
      )}
      <p className="said">
        Leave the amplifier unplugged: its output stage gives nonsense. A warm coil reads high; wait ten minutes. Below
        2 ohm a plain meter is poor: take the probes' own reading off.
      </p>
    </section>
  );
}

interface AllWaysProps {
  drivers: readonly Driver[];
  facts: (wiring: NamedWiring) => ShownWiring | null;
  least: number | undefined;
}

function AllWays({ drivers, facts, least }: AllWaysProps) {
  const style = useNumbers();
  const coils = drivers.flatMap(coilsOf);
  const all = allWirings(coils)
    .flatMap((network) => facts({ name: 'every way', network: joined('s', [network]), open: [] }) ?? [])
    .sort((a, b) => a.ohm - b.ohm);
  if (all.length < 3) return null;
  const sound = all.filter(({ even, amplifier }) => even && amplifier !== 'below').length;
  return (
    <section className="ohm" aria-labelledby="ways">
      <h2 className="h2s" id="ways">
        Every way to join {coils.length} coils{' '}
        <small>
          {countWords(all.length, 'way', 'ways').toLowerCase()}, {countWords(sound, 'shares', 'share').toLowerCase()}{' '}
          the power evenly{least === undefined ? '' : sound === 1 ? ' and holds' : ' and hold'}
        </small>
      </h2>
      <ul className="nets">
        {all.map((wiring) => {
          const most = Math.max(...wiring.shares.map(({ share }) => share));
          const below = wiring.amplifier === 'below';
          return (
            <li key={wiringKey(wiring.network)} className={below ? 'st' : wiring.even ? 'ok' : 'no'}>
              <CoilTreeView network={wiring.network} even={wiring.even} />
              <b>{significantText(wiring.ohm, 2, style)} ohm</b>
              <small>
                {wiring.even
                  ? `${fixedText(100 * most, 0, style)} % each`
                  : `one coil ${fixedText(100 * most, 0, style)} %`}
                {below ? ', too low' : ''}
              </small>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
