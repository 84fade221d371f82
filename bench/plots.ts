// How long the driver and the box page compute for one change of a value: it must end well within a frame of 16 ms.
// The driver page's curves are held against the same steps in NumPy on one thread. Run: npx tsx bench/plots.ts [rounds]
import { limitsPlot, travelPlot } from '../src/charts/drivers/driver-plots.ts';
import { findingsOf } from '../src/job/rules/findings.ts';
import { planView } from '../src/job/rules/plan-view.ts';
import type { PartOf } from '../src/plan/plan.ts';
import { templatePlan } from '../src/plan/templates/templates.ts';
import { boxCurves, boxSystem, startingBox } from '../src/web/box-page/box-model.ts';
import {
  cornersFor,
  driverInSystem,
  highPassRows,
  limitCurves,
  safeHighPass,
  withHighPass,
} from '../src/web/driver-page/driver-model.ts';
import { limitsSentence, travelSentence } from '../src/web/driver-page/driver-words.ts';
import { ratiosOf, spreadOf, table, told } from './figures.ts';
import { peerRun, peerVersions } from './peer.ts';

const rounds = Number(process.argv[2] ?? 40);
const style = { decimal: '.' } as const;
const plan = templatePlan('seven-channel');
const partOf = (id: string) => plan.driver.find((driver) => driver.id === id) as PartOf<'driver'>;

function systemOf(id: string) {
  const system = driverInSystem(planView(plan), partOf(id));
  if ('needs' in system) throw new Error(system.needs);
  return system;
}

/** What is computed when a high-pass is typed: the table, the curves and both plots. */
function typed(id: string, looked: number) {
  const system = systemOf(id);
  const { driver, range, ampVrms, highPassHz, lowPassHz } = system;
  const corners = [...cornersFor(highPassHz, 300), looked];
  const began = performance.now();
  const rows = highPassRows(system, corners);
  const row = rows[rows.length - 1];
  const curves = limitCurves(system, withHighPass(system, looked));
  const common = { style, subject: id, range, fHz: curves.fHz };
  const xmaxMm = 1000 * system.driven.xmaxM;
  limitsPlot({
    ...common,
    ...curves,
    sentence: limitsSentence(curves, row, style),
    heatW: driver.thermalW ?? null,
    amplifier: id,
    highPassHz: looked,
    lowPassHz,
  });
  const about = { voltRms: ampVrms, xmaxMm, travelMm: curves.travelMm, plannedMm: null };
  travelPlot({ ...common, ...about, sentence: travelSentence(row, xmaxMm, style), label: '', plannedLabel: '' });
  return { ms: performance.now() - began, system, corners, curves };
}

/** The same after the plan itself has changed: everything anew, the safe high-pass too. */
function changed(id: string, looked: number): number {
  const began = performance.now();
  safeHighPass(systemOf(id));
  return performance.now() - began + typed(id, looked).ms;
}

function boxed(netL: number): number {
  const driver = partOf('D7');
  const system = boxSystem(plan, driver);
  if ('needs' in system) throw new Error(system.needs);
  const enclosure = plan.enclosure.find(({ id }) => id === driver.enclosure);
  const tried = { ...startingBox(system, enclosure), kind: 'vented' as const, netL };
  const began = performance.now();
  boxCurves(system, tried);
  return performance.now() - began;
}

function checked(): number {
  const began = performance.now();
  findingsOf(plan);
  return performance.now() - began;
}

const each = (measure: (n: number) => number) => Array.from({ length: rounds }, (_, n) => measure(n));
for (let warm = 0; warm < 20; warm++) changed('D3', 200 + warm);

const rows: string[][] = [['one change', 'computing', 'of a frame of 16 ms', 'Kickpanel / NumPy']];
const row = (name: string, ms: number[], peer = '') => {
  const spread = spreadOf(ms);
  rows.push([name, told(spread, 'ms'), `${((100 * spread.median) / 16).toFixed(0)} %`, peer]);
};

const { system, corners, curves } = typed('D3', 260);
const { driver: parts, sourceOhm, xmaxM } = system.driven;
const given = {
  ...parts,
  leH: 'leH' in parts.coil ? parts.coil.leH : 0,
  sourceOhm,
  xmaxM,
  thermalW: system.driver.thermalW,
  ampVrms: system.ampVrms,
  lowPassHz: system.lowPassHz,
  order: system.edge.order,
  ...system.range,
  corners,
  looked: 260,
};
const typing = each(() => typed('D3', 260).ms);
if (peerVersions() === null) row('driver page, a high-pass typed', typing);
else {
  const { answer } = peerRun<{ ms: number[]; travelMm: number[] }>('plots.py', [JSON.stringify(given), `${rounds}`]);
  const apart = Math.max(...answer.travelMm.map((mm, n) => Math.abs(mm / curves.travelMm[n] - 1)));
  if (!(apart < 1e-6)) throw new Error(`both computed something else: ${apart}`);
  row('driver page, a high-pass typed', typing, told(ratiosOf(typing, answer.ms), ''));
}
row(
  'driver page, the plan changed',
  each((n) => changed('D3', 200 + n)),
);
row(
  'box page, a volume typed',
  each((n) => boxed(30 + n)),
);
row(`a plan of ${Object.values(plan).flat().length} parts checked`, each(checked));
process.stdout.write(`${table(rows)}\n`);
