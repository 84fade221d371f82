// The impedance of a driver: what the plan promises, and a measured sweep over it, held against the plan in words.
import { againstSheet, type SheetComparison } from '../../../drivers/impedance/against-sheet.ts';
import type { PlanChange } from '../../../plan/changes.ts';
import type { PartOf } from '../../../plan/plan.ts';
import { Finding } from '../../parts/Finding.tsx';
import { Icon } from '../../parts/Icon.tsx';
import { trueMinus } from '../../parts/true-minus.ts';
import { PlotView } from '../../plot/PlotView.tsx';
import { unitReadout } from '../../plot/readout.ts';
import { useNumbers } from '../../settings.ts';
import { ranges } from '../driver-model.ts';
import { driverName } from '../driver-words.ts';
import {
  comparedText,
  differsText,
  driverAsMeasured,
  impedanceOverPlan,
  impedanceSentence,
} from './impedance-words.ts';
import { SweepFiles } from './SweepFiles.tsx';
import type { Impedance } from './use-impedance.ts';

interface ImpedancePanelProps {
  driver: PartOf<'driver'>;
  impedance: Impedance;
  onChange: (change: PlanChange) => void;
}

export function ImpedancePanel({ driver, impedance, onChange }: ImpedancePanelProps) {
  const style = useNumbers();
  const { setup, state } = impedance;
  const reading = state.step === 'read' ? state.reading : null;
  const { joined, seriesOhm } = setup;
  const compared = reading === null ? null : againstSheet(reading.driver, driver, driver.coils ?? 1, joined);
  const sentence = impedanceSentence(reading?.driver ?? null, compared, driver, style);
  const name = driverName(driver);
  const range = ranges[driver.kind ?? 'full-range'];
  const spec = impedanceOverPlan({ driver, name, range, joined, reading, sentence, seriesOhm, style });
  const asMeasured = reading === null ? null : driverAsMeasured(driver, reading.driver, joined);
  return (
    <div className="dgrid impedance">
      <section aria-labelledby="impedance">
        <h2 id="impedance">
          Impedance <small>free in the air</small>
        </h2>
        {spec === null ? (
          <p className="said">
            The plan has too little for a curve: resistance, resonance and both Qs. A measured sweep gives all of them.
          </p>
        ) : (
          <PlotView spec={spec} heightPx={240} readout={unitReadout(style, 'ohm', 2)} />
        )}
        {compared === null ? null : (
          <Compared
            compared={compared}
            onTake={
              asMeasured === null || sameSheet(asMeasured, driver)
                ? null
                : () => onChange({ part: 'driver', id: driver.id, value: asMeasured })
            }
          />
        )}
      </section>
      <section aria-labelledby="sweep">
        <h2 id="sweep">
          Measure it <small>a sweep through a known resistor</small>
        </h2>
        <SweepFiles driver={driver} impedance={impedance} />
        <div aria-live="polite">
          {state.step === 'reading' ? <p className="said">Reading the sweep.</p> : null}
          {state.step === 'refused' ? (
            <Finding
              severity="stop"
              word="not read"
              message={<b>{trueMinus(state.issue.message)}</b>}
              mend={state.issue.mend}
            />
          ) : null}
        </div>
      </section>
    </div>
  );
}

/** What was measured is what the plan has, to four figures. */
const sameSheet = (measured: PartOf<'driver'>, driver: PartOf<'driver'>): boolean =>
  (['reOhm', 'fsHz', 'qms', 'qes', 'qts'] as const).every((field) => measured[field] === driver[field]);

function Compared({ compared, onTake }: { compared: SheetComparison; onTake: (() => void) | null }) {
  const style = useNumbers();
  const { values, says } = compared;
  return (
    <>
      <table className="against">
        <thead>
          <tr>
            <th scope="col">Against the plan</th>
            <th scope="col" className="num">
              Plan
            </th>
            <th scope="col" className="num">
              Measured
            </th>
            <th scope="col" className="num">
              Differs
            </th>
          </tr>
        </thead>
        <tbody>
          {values.map((value) => (
            <tr key={value.value} className={value.agrees === false ? 'bad' : ''}>
              <th scope="row">
                {value.agrees === null ? null : <Icon name={value.agrees ? 'ok' : 'fix'} />}
                {value.name}
                <span className="unseen">
                  {value.agrees === null ? '' : value.agrees ? ', agrees' : ', does not agree'}
                </span>
              </th>
              <td className="num">{comparedText(value, value.sheet, style)}</td>
              <td className="num">
                <b>{comparedText(value, value.measured, style)}</b>
              </td>
              <td className="num">{differsText(value, style)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <div className="mend">
        <p className="said" role="status">
          {says}
          {onTake === null ? ' The plan has these values.' : ''}
        </p>
        {onTake === null ? null : (
          <button type="button" className="btn" onClick={onTake}>
            Take these values into the plan
          </button>
        )}
      </div>
    </>
  );
}
