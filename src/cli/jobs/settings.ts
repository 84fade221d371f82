// `job settings JOB`: the setting sheet, as a table to fill in, and what was read back held against it.
import { failure, type Result, success } from '../../base/result.ts';
import { holdPointId } from '../../job/hold-points/ids.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import {
  type ReadBack,
  readBack,
  readSettings,
  type SheetSide,
  sheetColumns,
  sheetRows,
  sheetSides,
} from '../../job/settings/read-back.ts';
import {
  type SettingRow,
  type SettingSheet,
  type SettingValue,
  settingSheet,
} from '../../job/settings/setting-sheet.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { csvText } from '../csv.ts';
import { wordValue } from '../option-values.ts';
import { readTextFile } from '../text-file.ts';
import { writeWholeFile } from '../write-file.ts';
import { inWidth } from './hold-point-text.ts';
import { issuesOutcome, type JobCall, type JobPart } from './job-call.ts';
import { carriedOut, stateAsked, stateOfFile } from './job-state.ts';
import { wishFrom } from './wishes.ts';

const SHEET_BYTES_MAX = 2_000_000;

const withUnit = (value: SettingValue | null, unit: string | null): string =>
  value === null ? '-' : `${value}${unit === null ? '' : ` ${unit}`}`;

function rowLine({ setting, unit, start, planned }: SettingRow): string {
  return `      ${setting.padEnd(20)}  ${withUnit(start, unit).padEnd(16)}  ${withUnit(planned, unit)}`;
}

function sheetLines({ cautions, processors, without }: SettingSheet): string[] {
  const outputs = processors.flatMap((processor) => processor.outputs);
  if (outputs.length === 0 && without.length === 0) return ['The plan has no channel of a processor yet.'];
  return [
    ...cautions.map((caution) => `Caution: ${caution}`),
    '',
    ...processors.flatMap((processor) => [
      processor.words,
      ...processor.outputs.flatMap(({ output, words, drivers, rows, notes }) => [
        '',
        `${output}  ${words}: ${drivers.length === 0 ? 'no driver planned' : drivers.join(', ')}`,
        `      ${''.padEnd(20)}  ${'to start with'.padEnd(16)}  as planned`,
        ...rows.map(rowLine),
        ...[...rows.flatMap(({ note }) => note ?? []), ...notes].map((note) => `      ${note}`),
      ]),
      '',
    ]),
    ...without.map(({ says }) => says),
  ];
}

function readBackLines({ against, differences, notRead, says }: ReadBack): string[] {
  const missing = notRead.map(({ output, setting }) => `      ${output} ${setting}`);
  return [
    `Read back against what ${against === 'start' ? 'the first sound starts with' : 'is planned'}: ${says}`,
    ...differences.map((difference) => `      ${difference.says}`),
    ...(missing.length === 0 ? [] : ['Not read:', ...missing]),
  ];
}

interface Asked {
  against: SheetSide;
  back: ReadBack | null;
}

function askedOf({ given }: CommandContext, sheet: SettingSheet): Result<Asked> {
  const against = wordValue('against', given('against') ?? 'planned', sheetSides);
  if (!against.ok) return against;
  const file = given('read-back');
  if (file === undefined) {
    const lone = ['by', 'against'].find((option) => given(option) !== undefined);
    if (lone === undefined) return success({ against: against.value, back: null });
    const mend = 'Give --read-back F.csv, the table of --csv with what the processor shows filled in.';
    return failure({ code: 'option-missing', message: 'Nothing was read back.', where: `--${lone}`, mend });
  }
  const text = readTextFile(file, SHEET_BYTES_MAX);
  const lines = text.ok ? readSettings(text.value) : text;
  const back = lines.ok ? readBack(sheet, lines.value, against.value) : lines;
  if (back.ok) return success({ against: against.value, back: back.value });
  return failure(
    ...back.issues.map((issue) => (issue.where === file ? issue : { ...issue, where: `${file}: ${issue.where}` })),
  );
}

function outcome(context: CommandContext, found: Result<JobState>, job: string | null): CommandOutcome {
  if (!found.ok) return issuesOutcome(...found.issues);
  const sheet = settingSheet(found.value);
  const asked = askedOf(context, sheet);
  if (!asked.ok) return issuesOutcome(...asked.issues);
  const { back } = asked.value;
  const table = context.given('csv');
  if (table !== undefined) {
    const file = writeWholeFile(table, csvText(sheetColumns, sheetRows(sheet)));
    if (!file.ok) return issuesOutcome(...file.issues);
  }
  const written = table === undefined ? [] : ['', `Written: ${table}`];
  return {
    status: back === null || back.verdict === 'same' ? 0 : 1,
    answer: { schema: 'kickpanel.settings/1', job, ...sheet, readBack: back },
    text: (style) => inWidth([...(back === null ? sheetLines(sheet) : readBackLines(back)), ...written], style),
  };
}

/** What was read back whole and right after a power cycle closes the hold points of the processors, by somebody's name. */
async function proven(call: JobCall, state: JobState, by: string, answered: CommandOutcome): Promise<CommandOutcome> {
  const { readBack: back, processors } = (answered as { answer: SettingSheet & { readBack: ReadBack | null } }).answer;
  if (back?.against !== 'planned') {
    const mend = 'Leave --by out: only the settings of the plan close a hold point.';
    return issuesOutcome({
      code: 'options-conflict',
      message: 'Starting settings prove nothing.',
      where: '--by',
      mend,
    });
  }
  if (back.verdict !== 'same') return answered;
  const wish = wishFrom(
    {
      command: 'giveEvidence',
      // Of a processor without channels nothing was read.
      holdPoints: processors.flatMap(({ processor, outputs }) =>
        outputs.length === 0 ? [] : [holdPointId('settings-kept', processor)],
      ),
      evidence: { how: 'seen', name: by, words: `Read back after a power cycle: ${back.says.replace(/[.]$/, '')}` },
    },
    'job settings',
  );
  const written = wish.ok ? await carriedOut(call, state.id, wish.value) : wish;
  return written.ok ? answered : issuesOutcome(...written.issues);
}

export const settings: JobPart = {
  operands: [1, 1],
  usage: 'job settings JOB [--csv OUT.csv] [--read-back F.csv [--against start|planned] [--by NAME]] [--plan F.json]',
  async run(call) {
    const found = await stateAsked(call);
    const answered = outcome(call, found, found.ok ? found.value.id : null);
    const by = call.given('by');
    return by === undefined || !found.ok || answered.status > 1 ? answered : proven(call, found.value, by, answered);
  },
  withoutJob: (context) => outcome(context, stateOfFile(context), null),
};
