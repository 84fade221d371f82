// `job plan ...`: the plan of a job, or one in a file, shown, changed and held against the rules.
import { readFileSync } from 'node:fs';
import { failure, type Result, success } from '../../base/result.ts';
import type { Command as Wish } from '../../job/commands/commands.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import { planCheckOf } from '../../job/projections/plan-check.ts';
import { driversFromTable } from '../../plan/parts-csv.ts';
import { amplifierShelf, driverShelf, processorShelf, sourceShelf } from '../../plan/parts-library.ts';
import { templateNames, templatePlan } from '../../plan/templates/templates.ts';
import { carryOut } from '../../store/write-entries.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { nearestWord } from '../nearest-word.ts';
import { readTextFile } from '../text-file.ts';
import { twoColumns } from '../wrap.ts';
import { issuesOutcome, type JobCall, type JobPart, whoOf } from './job-call.ts';
import { stateNamed, stateOfPlan } from './job-state.ts';
import { changesBetween, planFile, readPlanFile } from './plan-file.ts';
import { planCheckText, planText } from './plan-text.ts';
import { wishFrom } from './wishes.ts';

const actions = ['check', 'show', 'set', 'remove', 'accept', 'template', 'parts'] as const;
type Action = (typeof actions)[number];

/** Operands after the action: at least, at most. */
const operandsOf: Record<Action, [number, number]> = {
  check: [0, 1],
  show: [1, 1],
  set: [1, 4],
  remove: [3, 3],
  accept: [4, 4],
  template: [0, 2],
  parts: [0, 1],
};

function checkOutcome(state: JobState): CommandOutcome {
  const check = planCheckOf(state);
  return {
    status: check.stops > 0 ? 1 : 0,
    answer: { schema: 'kickpanel.plan-check/1', ...check },
    text: (style) => planCheckText(check, style),
  };
}

/** A plan alone, without a job and without a data folder. */
export function checkPlanFile({ given }: CommandContext): CommandOutcome {
  const plan = readPlanFile(given('plan') as string);
  if (!plan.ok) return issuesOutcome(...plan.issues);
  return checkOutcome(stateOfPlan(plan.value));
}

async function wished(call: JobCall, state: JobState, wish: Result<Wish>): Promise<CommandOutcome> {
  if (!wish.ok) return issuesOutcome(...wish.issues);
  const { workshop, given } = call;
  const request = { id: workshop.freshId(), who: whoOf(given), wish: wish.value };
  const written = await carryOut(workshop, state.id, [request]);
  if (!written.ok) return issuesOutcome(...written.issues);
  const after = await stateNamed(call, state.id);
  if (!after.ok) return issuesOutcome(...after.issues);
  const { findings, cannotTell, stops } = planCheckOf(after.value);
  const { appended } = written.value;
  return {
    status: 0,
    answer: { appended, plan: planFile(after.value.plan.parts), findings, cannotTell, stops },
    text: () => `Done. ${findings.length} findings, ${stops} of them to stop for; "job plan check" shows them.\n`,
  };
}

function valueFrom(text: string): Result<Record<string, unknown>> {
  try {
    const value = JSON.parse(text === '-' ? readFileSync(0, 'utf8') : text);
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) return success(value);
  } catch {
    // Said below: what is no object and what is no JSON is mended alike.
  }
  const mend = 'Give an object such as {"areaMm2":25}, or - to read it from stdin.';
  return failure({ code: 'not-json', message: 'The value is no JSON object.', where: 'VALUE', mend });
}

function setWish(call: JobCall, state: JobState): Result<Wish> {
  const [, , part, id, text] = call.operands;
  const file = call.given('plan');
  if (file !== undefined) {
    const plan = readPlanFile(file);
    if (!plan.ok) return plan;
    return wishFrom({ command: 'changePlan', changes: changesBetween(state.plan.parts, plan.value) }, file);
  }
  if (text === undefined) {
    const mend = 'Give PART ID VALUE such as run R1 {"areaMm2":25}, or a whole plan by --plan.';
    return failure({ code: 'argument-missing', message: 'What is to be set?', where: 'job plan set', mend });
  }
  const value = valueFrom(text);
  return value.ok ? wishFrom({ command: 'setPlanPart', part, id, value: value.value }, `${part} ${id}`) : value;
}

function templates(): CommandOutcome {
  const list = templateNames.map((name) => {
    const { driver, amplifier } = templatePlan(name);
    return { name, drivers: driver.length, amplifiers: amplifier.length };
  });
  const rows = list.map(({ name, drivers, amplifiers }): [string, string] => [
    name,
    `${drivers} drivers, ${amplifiers} ${amplifiers === 1 ? 'amplifier' : 'amplifiers'}`,
  ]);
  return { status: 0, answer: { templates: list }, text: (style) => `${twoColumns(rows, style.width).join('\n')}\n` };
}

function parts(file: string | undefined): CommandOutcome {
  if (file === undefined) {
    const answer = {
      drivers: driverShelf,
      amplifiers: amplifierShelf,
      processors: processorShelf,
      sources: sourceShelf,
    };
    const rows = Object.entries(answer).map(([kind, shelf]): [string, string] => [kind, Object.keys(shelf).join(', ')]);
    return { status: 0, answer, text: (style) => `${twoColumns(rows, style.width).join('\n')}\n` };
  }
  const text = readTextFile(file, 5e6);
  if (!text.ok) return issuesOutcome(...text.issues);
  const drivers = driversFromTable(text.value);
  if (!drivers.ok) {
    return issuesOutcome(...drivers.issues.map((issue) => ({ ...issue, where: `${file}, ${issue.where}` })));
  }
  return { status: 0, answer: { drivers: drivers.value }, text: () => `${drivers.value.length} drivers read\n` };
}

async function act(action: Action, call: JobCall): Promise<CommandOutcome> {
  const [, first, second, third, fourth] = call.operands;
  if (action === 'parts') return parts(first);
  if (action === 'template' && second === undefined) return templates();
  const found = await stateNamed(call, first ?? '');
  if (!found.ok) return issuesOutcome(...found.issues);
  const state = found.value;
  const wish = (fields: Record<string, unknown>) => wished(call, state, wishFrom(fields, `job plan ${action}`));
  switch (action) {
    case 'check':
      return checkOutcome(state);
    case 'show': {
      const { parts: plan, changes: _, ...more } = state.plan;
      return { status: 0, answer: { plan: planFile(plan), ...more }, text: (style) => planText(plan, style) };
    }
    case 'set':
      return wished(call, state, setWish(call, state));
    case 'remove':
      return wish({ command: 'removePlanPart', part: second, id: third });
    case 'accept':
      return wish({ command: 'overrideFinding', finding: second, place: third, why: fourth });
    case 'template': {
      const replace = call.given('replace') === undefined ? undefined : true;
      return wish({ command: 'startPlanFromTemplate', template: second, replace });
    }
  }
}

export const plan: JobPart = {
  operands: [1, 5],
  usage: 'job plan check|show|set|remove|accept|template|parts [JOB] ...',
  async run(call) {
    const [word, ...rest] = call.operands;
    const action = actions.find((known) => known === word);
    if (action === undefined) {
      const near = nearestWord(word, [...actions]);
      const mend = `${near === null ? '' : `Did you mean job plan ${near}? `}Known: ${actions.join(', ')}.`;
      return issuesOutcome({ code: 'unknown-part', message: `job plan has no part "${word}".`, where: word, mend });
    }
    const [least, most] = operandsOf[action];
    if (rest.length < least || rest.length > most) {
      const few = rest.length < least;
      const message = few ? `job plan ${action} needs more.` : `job plan ${action} takes no "${rest[most]}".`;
      const mend = '"kickpanel job --help" shows each call.';
      return issuesOutcome({ code: few ? 'argument-missing' : 'too-many-arguments', message, where: action, mend });
    }
    return act(action, call);
  },
};
