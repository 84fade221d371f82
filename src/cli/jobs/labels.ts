// `job labels JOB`: a label for each end of each lead, as PDF or SVG.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { leadList } from '../../job/leads/lead-list.ts';
import { labelPaper } from '../../report/job-papers.ts';
import { moduleLeastMm } from '../../report/labels/lead-label.ts';
import { defaultStock, type Stock, stockOf } from '../../report/labels/stock.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { numberValue, wordValue } from '../option-values.ts';
import { issuesOutcome, type JobPart } from './job-call.ts';
import { filePlan, jobPlan, type SourcePlan } from './plan-source.ts';
import { pageFormat, writePages } from './write-pages.ts';

type Given = CommandContext['given'];

/** Ranges of the measures, mm. */
const measures = { width: [10, 190], height: [6, 200], gap: [0, 50], margin: [0, 60] } as const;

function stockFrom(given: Given): Result<Stock> {
  const issues: Issue[] = [];
  const kept = <T>(value: Result<T>, other: T): T => {
    if (value.ok) return value.value;
    issues.push(...value.issues);
    return other;
  };
  const measure = (option: keyof typeof measures, other: number) => {
    const text = given(option);
    const [min, max] = measures[option];
    return text === undefined ? other : kept(numberValue(option, text, { min, max, unit: 'mm' }), other);
  };
  const kinds: Stock['kind'][] = ['sheet', 'roll'];
  const kind = kept(wordValue('stock', given('stock') ?? defaultStock.kind, kinds), defaultStock.kind);
  const stock = {
    kind,
    widthMm: measure('width', defaultStock.widthMm),
    heightMm: measure('height', defaultStock.heightMm),
    gapMm: measure('gap', defaultStock.gapMm),
    marginMm: measure('margin', defaultStock.marginMm),
  };
  return issues.length > 0 ? failure(...issues) : stockOf(stock);
}

const addressDefault = 'http://localhost:4870';

/** The address without its last stroke; a telephone must be able to open it. */
function addressFrom(text: string): Result<string> {
  const url = URL.canParse(text) ? new URL(text) : null;
  const sound = url !== null && /^https?:$/.test(url.protocol) && url.search === '' && url.hash === '';
  if (sound && text.length <= 200) return success(url.href.replace(/\/+$/, ''));
  const mend = `Give --address the address of the app, such as ${addressDefault}.`;
  return failure({ code: 'bad-option-value', message: 'This is no address of an app.', where: '--address', mend });
}

async function outcome({ given }: CommandContext, source: Result<SourcePlan>): Promise<CommandOutcome> {
  const [stock, address, format] = [
    stockFrom(given),
    addressFrom(given('address') ?? addressDefault),
    pageFormat(given('out')),
  ];
  const path = given('out');
  if (!source.ok || !stock.ok || !address.ok || !format.ok || path === undefined) {
    return issuesOutcome(...[source, stock, address, format].flatMap((part) => (part.ok ? [] : part.issues)));
  }
  const { plan, stale, job } = source.value;
  const rows = leadList(plan, { stale });
  if (rows.length === 0) {
    const mend = 'Plan a lead first: "job plan set JOB lead L1 ...", or a template.';
    return issuesOutcome({ code: 'nothing-to-print', message: 'The plan has no leads yet.', mend });
  }
  const paper = labelPaper(rows, { job, stock: stock.value, address: address.value, format: format.value });
  const written = await writePages(path, paper);
  if (!written.ok) return issuesOutcome(...written.issues);
  const { moduleMm } = paper;
  const small = moduleMm !== null && moduleMm < moduleLeastMm;
  const notes = small
    ? [
        `The squares of the code are ${moduleMm.toFixed(2)} mm: take a higher label or a shorter --address to scan it well.`,
      ]
    : [];
  const { kind, widthMm, heightMm } = stock.value;
  return {
    status: 0,
    answer: {
      schema: 'kickpanel.labels/1',
      job: job?.id ?? null,
      stock: kind,
      widthMm,
      heightMm,
      leads: rows.length,
      labels: paper.labels,
      pages: paper.pages.length,
      codeModuleMm: moduleMm,
      scans: paper.scans,
      notes,
      written: written.value,
    },
    text: () =>
      [
        `${paper.labels} labels of ${widthMm} by ${heightMm} mm for ${rows.length} leads. Print them at 100 %.`,
        ...notes,
        ...written.value.map((file) => `Written: ${file}`),
        '',
      ].join('\n'),
  };
}

export const labels: JobPart = {
  operands: [1, 1],
  usage: 'job labels JOB [--plan F.json] --out LABELS.pdf',
  run: async (call) => outcome(call, await jobPlan(call, call.operands[0])),
  withoutJob: (context) => outcome(context, filePlan(context)),
};
