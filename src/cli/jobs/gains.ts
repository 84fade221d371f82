// `job gains JOB`: where each gain stands, what the meter should read, what it read, and the hiss that it leaves.
import { failure, type Result, success } from '../../base/result.ts';
import { type GainRow, type GainSheet, type GainSheetOptions, gainSheet } from '../../job/gains/gain-sheet.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import { said } from '../../job/rules/words.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { numberValue } from '../option-values.ts';
import { inWidth } from './hold-point-text.ts';
import { issuesOutcome, type JobPart } from './job-call.ts';
import { stateAsked, stateOfFile } from './job-state.ts';

function optionsFrom({ given }: CommandContext): Result<GainSheetOptions> {
  const [toneText, meterText] = [given('tone'), given('meter')];
  const tone = toneText === undefined ? undefined : numberValue('tone', toneText, { min: -80, max: 0, unit: 'dBFS' });
  const meter =
    meterText === undefined ? undefined : numberValue('meter', meterText, { min: 50, max: 1e6, unit: 'Hz' });
  const issues = [tone, meter].flatMap((part) => (part === undefined || part.ok ? [] : part.issues));
  if (issues.length > 0) return failure(...issues);
  return success({
    ...(tone?.ok ? { toneDbfs: tone.value } : {}),
    ...(meter?.ok ? { meterHz: meter.value } : {}),
  });
}

function hissWords({ hiss }: GainRow): string {
  const each = hiss.map(({ driver, splDb, distanceM, needs }) =>
    splDb === null
      ? `cannot tell for ${driver}: ${needs} is not known`
      : `${driver} ${said(splDb)} dB SPL at ${said(distanceM ?? 0)} m`,
  );
  return each.length === 0 ? '' : `Hiss: ${each.join('; ')}.`;
}

function settingWords({ settings, needs }: GainRow): string {
  if (settings === null) return `Where its gains stand: cannot tell, ${needs.at(-1) ?? 'something'} is not known.`;
  const { inputPadDb, processorOutV, processorTrimDb, amplifierSensitivityV, amplifierGainDb, shortDb } = settings;
  const pad =
    inputPadDb === null || inputPadDb > -0.05 ? '' : `a divider of ${said(-inputPadDb)} dB before the input; `;
  const trim = processorTrimDb > -0.05 ? '' : `, turned down ${said(-processorTrimDb)} dB`;
  const short = shortDb > 0.05 ? ` It stays ${said(shortDb)} dB short.` : '';
  return `Least noise: ${pad}processor out ${said(processorOutV)} V${trim}, amplifier at ${said(amplifierSensitivityV)} V (${said(amplifierGainDb)} dB).${short}`;
}

function rowLines(row: GainRow): string[] {
  const { terminal, words, channel, drivers, target, reading, state, verdict, says } = row;
  const full = target === null ? '' : ` Full scale ${said(target.fullV)} V, by the ${target.limitedBy}.`;
  const range =
    reading === null
      ? ''
      : `Allowed ${said(reading.lowV)} to ${said(reading.highV)} V; with the drivers unplugged set about ${said(reading.unloadedV)} V.${full}`;
  return [
    `${terminal}  ${words}${channel === null ? '' : `, channel ${channel}`}: ${drivers.join(', ')}  [${state}, ${verdict}]`,
    `      ${says}`,
    ...[range, settingWords(row), hissWords(row)].filter((line) => line !== '').map((line) => `      ${line}`),
    '',
  ];
}

function sheetLines({ sources, channels, cautions }: GainSheet): string[] {
  if (channels.length === 0) return ['The plan has no amplifier channel that drives a load yet.'];
  return [...cautions, '', ...sources.map(({ says }) => says), '', ...channels.flatMap(rowLines)];
}

function outcome(context: CommandContext, found: Result<JobState>, job: string | null): CommandOutcome {
  const options = optionsFrom(context);
  if (!found.ok || !options.ok) {
    return issuesOutcome(...[found, options].flatMap((part) => (part.ok ? [] : part.issues)));
  }
  const sheet = gainSheet(found.value, options.value);
  return {
    status: 0,
    answer: { schema: 'kickpanel.gains/1', job, ...sheet },
    text: (style) => inWidth(sheetLines(sheet), style),
  };
}

export const gains: JobPart = {
  operands: [1, 1],
  usage: 'job gains JOB [--tone DBFS] [--meter HZ] [--plan F.json]',
  async run(call) {
    const found = await stateAsked(call);
    return outcome(call, found, found.ok ? found.value.id : null);
  },
  withoutJob: (context) => outcome(context, stateOfFile(context), null),
};
