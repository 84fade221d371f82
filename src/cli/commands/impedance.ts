// `impedance`: a sweep through a known resistor into a driver: its real resonance, Qs and resistance, held against the plan.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import {
  againstSheet,
  asSheet,
  type MeasuredJoin,
  measuredJoins,
  type SheetComparison,
} from '../../drivers/impedance/against-sheet.ts';
import type { ImpedanceReading } from '../../drivers/impedance/impedance-reading.ts';
import { readImpedance } from '../../drivers/impedance/read-impedance.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { Recording } from '../../signals/recording.ts';
import type { Command, CommandContext, CommandOutcome } from '../command.ts';
import { readPlanFile } from '../jobs/plan-file.ts';
import { nearestWord } from '../nearest-word.ts';
import { hzText, significant } from '../number-text.ts';
import { numberValue, wordValue } from '../option-values.ts';
import type { TextStyle } from '../output.ts';
import { openWavFile } from '../wav-file.ts';
import { twoColumns, wrapped } from '../wrap.ts';
import { writeWholeFile } from '../write-file.ts';

/** What is wrong with the call rather than with the sound. */
const badCalls = ['input-missing', 'rates-differ', 'too-long'];

const CALL = 'kickpanel impedance TAKE.wav --resistor 10';

interface Asked {
  file: string;
  seriesOhm: number;
  leadOhm: number;
  sourceInput: number;
  driverInput: number;
  joined: MeasuredJoin;
}

function asked({ operands, given }: CommandContext): Result<Asked> {
  const issues: Issue[] = [];
  const [file = '', ...more] = operands;
  const mend = `Call it as: ${CALL}`;
  if (file === '') issues.push({ code: 'argument-missing', message: 'impedance needs the recording.', mend });
  for (const where of more) {
    const one = 'Give the take at the driver by --driver-take.';
    issues.push({ code: 'too-many-arguments', message: 'impedance takes one recording.', where, mend: one });
  }
  const taken = <Value>(read: Result<Value>, fallback: Value): Value => {
    if (read.ok) return read.value;
    issues.push(...read.issues);
    return fallback;
  };
  const numbered = (name: string, rule: Parameters<typeof numberValue>[2], fallback: number) => {
    const text = given(name);
    return text === undefined ? fallback : taken(numberValue(name, text, rule), fallback);
  };
  if (given('resistor') === undefined) {
    const message = 'impedance needs the ohms of the resistor.';
    issues.push({ code: 'option-missing', message, where: '--resistor', mend: `Measure it. ${mend}` });
  }
  if (given('plan') !== undefined && given('driver') === undefined) {
    const message = 'Which driver of the plan was measured?';
    issues.push({ code: 'option-missing', message, where: '--driver', mend: 'Give its id, such as --driver D1.' });
  }
  const input = { min: 1, max: 64, whole: true };
  const seriesOhm = numbered('resistor', { min: 0.1, max: 10_000, unit: 'ohm' }, 1);
  const leadOhm = numbered('leads', { min: 0, max: 5, unit: 'ohm' }, 0);
  const sourceInput = numbered('source-input', input, 1) - 1;
  const driverInput = numbered('driver-input', input, given('driver-take') === undefined ? 2 : 1) - 1;
  const join = given('coils');
  const joined = join === undefined ? 'one' : taken(wordValue('coils', join, measuredJoins), 'one');
  if (issues.length > 0) return failure(...issues);
  return success({ file, seriesOhm, leadOhm, sourceInput, driverInput, joined });
}

/** The driver of the plan that was measured; null where no plan was given. */
function planned({ given }: CommandContext): Result<PartOf<'driver'> | null> {
  const [file, wanted] = [given('plan'), given('driver')];
  if (file === undefined || wanted === undefined) return success(null);
  const plan = readPlanFile(file);
  if (!plan.ok) return plan;
  const found = plan.value.driver.find(({ id }) => id === wanted);
  if (found !== undefined) return success(found);
  const ids = plan.value.driver.map(({ id }) => id);
  const near = nearestWord(wanted, ids);
  const mend = near === null ? `The plan has: ${ids.join(', ') || 'none'}.` : `Did you mean ${near}?`;
  return failure({ code: 'unknown-driver', message: `The plan has no driver ${wanted}.`, where: '--driver', mend });
}

/** Reads all the files that were named, and closes them again; what cannot be opened stands apart from what cannot be read. */
function readFiles(context: CommandContext, { file, joined: _, ...circuit }: Asked): Result<Result<ImpedanceReading>> {
  const open = new Map<string, ReturnType<typeof openWavFile>>();
  const named = { take: file, driverTake: context.given('driver-take'), unplugged: context.given('unplugged') };
  const recordings: Partial<Record<keyof typeof named, Recording>> = {};
  const issues: Issue[] = [];
  try {
    for (const [role, path] of Object.entries(named) as [keyof typeof named, string | undefined][]) {
      if (path === undefined) continue;
      const wav = openWavFile(path);
      open.set(role, wav);
      if (wav.ok) recordings[role] = wav.value.recording;
      else issues.push(...wav.issues);
    }
    const { take, driverTake, unplugged } = recordings;
    if (take === undefined || issues.length > 0) return failure(...issues);
    const reading = readImpedance({
      take,
      ...(driverTake === undefined ? {} : { driverTake }),
      ...(unplugged === undefined ? {} : { unplugged }),
      ...circuit,
    });
    const bad = reading.ok ? [] : reading.issues.filter(({ code }) => badCalls.includes(code));
    return bad.length > 0 ? failure(...bad) : success(reading);
  } finally {
    for (const wav of open.values()) if (wav.ok) wav.value.close();
  }
}

function csvOf({ curve }: ImpedanceReading): string {
  const rows = curve.fHz.map((fHz, n) =>
    [fHz, curve.ohm[n], curve.phaseDeg[n]].map((value) => String(Number(value.toPrecision(7)))).join(','),
  );
  return `${['fHz,ohm,phaseDeg', ...rows].join('\n')}\n`;
}

function textOf({ driver }: ImpedanceReading, compared: SheetComparison | null, style: TextStyle): string {
  const { fsHz, reOhm, qms, qes, qts, mostOhm, leMh, sigmaPct, fitErrorPct } = driver;
  const rows: [string, string][] = [
    ['Resonance', `${hzText(fsHz)}, to ${significant(Math.max(sigmaPct.fsHz, 0.01), 1)} %`],
    ['Resistance', `${significant(reOhm, 3)} ohm`],
    ['Mechanical Q', significant(qms, 3)],
    ['Electrical Q', significant(qes, 3)],
    ['Total Q', `${significant(qts, 3)}, to ${significant(Math.max(sigmaPct.qts, 0.01), 1)} %`],
    ['Top of the peak', `${significant(mostOhm, 3)} ohm`],
    ['Coil at 1 kHz', `${significant(Math.max(leMh, 0), 2)} mH`],
    ['Fit', `within ${significant(Math.max(fitErrorPct, 0.01), 2)} % of one driver in free air`],
  ];
  const against = (compared?.values ?? []).flatMap(
    ({ name, unit, sheet, measured, differsPct }): [string, string][] => {
      if (sheet === null || differsPct === null) return [];
      const sign = differsPct < 0 ? '-' : '+';
      const off = `${sign}${Math.abs(differsPct).toFixed(0)} %`;
      return [[name, `plan ${significant(sheet, 3)} ${unit}, measured ${significant(measured, 3)} ${unit} (${off})`]];
    },
  );
  const plan =
    compared === null ? [] : ['', ...twoColumns(against, style.width), '', ...wrapped(compared.says, style.width)];
  return `${[...twoColumns(rows, style.width), ...plan].join('\n')}\n`;
}

function run(context: CommandContext): CommandOutcome {
  const call = asked(context);
  const driver = call.ok ? planned(context) : success(null);
  if (!call.ok || !driver.ok) return { status: 2, issues: [call, driver].flatMap((one) => (one.ok ? [] : one.issues)) };
  const files = readFiles(context, call.value);
  if (!files.ok) return { status: 2, issues: files.issues };
  const reading = files.value;
  if (!reading.ok) {
    const [problem] = reading.issues;
    return {
      status: 1,
      answer: { schema: 'kickpanel.impedance/1', usable: false, problem },
      text: (style) => `${wrapped(`${problem.message} ${problem.mend ?? ''}`, style.width).join('\n')}\n`,
    };
  }
  const csv = context.given('csv');
  const written = csv === undefined ? success(undefined) : writeWholeFile(csv, csvOf(reading.value));
  if (!written.ok) return { status: 2, issues: written.issues };
  const { coils = 1, ...sheet } = driver.value ?? {};
  const compared = driver.value === null ? null : againstSheet(reading.value.driver, sheet, coils, call.value.joined);
  return {
    status: 0,
    answer: {
      schema: 'kickpanel.impedance/1',
      usable: true,
      driver: reading.value.driver,
      sheet: asSheet(reading.value.driver, coils, call.value.joined),
      ...(compared === null ? {} : { againstPlan: compared }),
      curve: reading.value.curve,
    },
    text: (style) => textOf(reading.value, compared, style),
  };
}

export const command: Command = {
  name: 'impedance',
  summary: 'read a sweep through a known resistor: resonance, Qs and resistance of a driver, against its plan',
  usage: 'impedance TAKE.wav --resistor OHM [--plan PLAN.json --driver D1]',
  details:
    'The sweep goes through a resistor of 5 to 100 ohm, measured with a meter, into the driver, which hangs free in the air. One input records the voltage before the resistor, the other that at the driver. A recorder with one input takes them one after the other, gains untouched: give the second by --driver-take. Start at the lowest level: half a volt is plenty, and a tweeter is swept from no lower than its sheet allows. Outputs of full-bridge amplifiers may not touch the ground of a recorder: use a headphone output. Status 1: the recording shows no single driver in free air.',
  options: [
    { name: 'resistor', value: 'OHM', meaning: 'the known resistor, as a meter reads it (needed)' },
    { name: 'leads', value: 'OHM', meaning: 'leads and clips from the second input to the coil', default: '0' },
    { name: 'source-input', value: 'N', meaning: 'the input before the resistor, counted from 1', default: '1' },
    {
      name: 'driver-input',
      value: 'N',
      meaning: 'the input at the driver, counted from 1',
      default: '2, or 1 of its own take',
    },
    { name: 'driver-take', value: 'FILE.wav', meaning: 'the voltage at the driver, recorded after the other' },
    {
      name: 'unplugged',
      value: 'FILE.wav',
      meaning: 'both inputs with the driver unplugged: takes out that their gains differ',
    },
    { name: 'coils', value: 'one|series|parallel', meaning: 'how the coils were joined', default: 'one' },
    { name: 'plan', value: 'PLAN.json', meaning: 'a plan to hold the driver against' },
    { name: 'driver', value: 'ID', meaning: 'the driver of the plan that was measured' },
    { name: 'csv', value: 'OUT.csv', meaning: 'write the curve as a table' },
  ],
  example: 'kickpanel impedance sweep.wav --resistor 10.1 --plan plan.json --driver D1',
  run,
};
