// Every speaker lead: both ends, colour, cable, what it should read, and a place for what it reads.
import { useState } from 'react';
import type { PlanChange } from '../../plan/changes.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import { cableSizeText } from '../part-editor/cable-size.ts';
import { NumberInput, ReadingInput, type Typed } from '../part-editor/inputs.tsx';
import { numberText, quantities } from '../part-editor/quantity.ts';
import { SeverityMark } from '../parts/Severity.tsx';
import type { PlanActions } from '../plan-lanes/use-plan.ts';
import { useNumbers } from '../settings.ts';
import type { LeadRow } from './lead-rows.ts';

interface LeadTableProps {
  plan: Plan;
  rows: readonly LeadRow[];
  /** The lead whose label was read. */
  scanned: string | null;
  actions: PlanActions;
  onEdit: (lead: string) => void;
}

type Value = number | 'open' | undefined;
type Quantity = 'resistance' | 'to-body';

const swatches: Record<string, string> = {
  blue: 'var(--lead-1)',
  brown: 'var(--lead-2)',
  orange: 'var(--lead-2)',
  green: 'var(--lead-3)',
  violet: 'var(--lead-4)',
  purple: 'var(--lead-4)',
  grey: 'var(--lead-5)',
  gray: 'var(--lead-5)',
  red: 'var(--lead-6)',
  black: 'var(--ink)',
  white: 'var(--card)',
  yellow: 'var(--tape)',
};

export function LeadTable({ plan, rows, scanned, actions, onEdit }: LeadTableProps) {
  const style = useNumbers();
  const [typed, setTyped] = useState<ReadonlyMap<string, { of: string; quantity: Quantity; value: Value }>>(new Map());
  const [wrong, setWrong] = useState<ReadonlySet<string>>(new Set());
  const [probesOhm, setProbesOhm] = useState<number | undefined>(
    rows.find(({ reading }) => reading?.probesOhm !== undefined)?.reading?.probesOhm,
  );
  const given = (of: string, quantity: Quantity) => (entry: Typed<number | 'open'>) => {
    const key = `${quantity} ${of}`;
    setWrong((before) => new Set([...before].filter((each) => each !== key).concat('wrong' in entry ? [key] : [])));
    if ('value' in entry) setTyped((before) => new Map(before).set(key, { of, quantity, value: entry.value }));
  };
  const keep = async () => {
    if (wrong.size > 0) return;
    const changes = [...typed.values()].flatMap((entry) => readingChange(plan, rows, entry, probesOhm));
    if (changes.length > 0 && (await actions.change(...changes))) setTyped(new Map());
  };
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <table className="lead-table">
        <thead>
          <tr>
            <th scope="col">Label</th>
            <th scope="col">From</th>
            <th scope="col">To</th>
            <th scope="col">Colour</th>
            <th scope="col" className="num">
              Cable
            </th>
            <th scope="col" className="num">
              Length, m
            </th>
            <th scope="col">Under</th>
            <th scope="col" className="num">
              Should read, ohm
            </th>
            <th scope="col">Reads, ohm</th>
            <th scope="col">To body, ohm</th>
            <th scope="col">Verdict</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const { lead, from, to, driver, under, expects, reading, toBody, fits, says } = row;
            const size = cableSizeText(lead, style);
            return (
              <tr key={lead.id} data-lead={lead.id} aria-current={lead.id === scanned ? 'true' : undefined}>
                <td>
                  <button type="button" className="flag" onClick={() => onEdit(lead.id)}>
                    {lead.id}
                    <span className="unseen">, change this lead</span>
                  </button>
                </td>
                <td data-name="from">
                  <b>{from}</b>
                </td>
                <td data-name="to">
                  {to}
                  <small>{driver}</small>
                </td>
                <td data-name="colour">
                  {lead.colour === undefined ? (
                    <span className="quiet">not said</span>
                  ) : (
                    <span className="colour">
                      <i style={{ background: swatches[lead.colour.toLowerCase()] ?? 'transparent' }} />
                      {lead.colour}
                    </span>
                  )}
                </td>
                <td data-name="cable" className="num">
                  {size === '' ? '\u2013' : `2 \u00d7 ${size.replace(' mm\u00b2', '')}`}
                </td>
                <td data-name="length" className="num">
                  {lead.lengthM === undefined ? '\u2013' : numberText(lead.lengthM, style)}
                </td>
                <td data-name="under">{under}</td>
                <td data-name="should read" className="num">
                  {expects === '' ? '\u2013' : expects}
                </td>
                <td data-name="reads" className="in">
                  <ReadingInput
                    bare
                    label={`${lead.id} reads, ohm`}
                    value={shownValue(typed, 'resistance', lead.id, reading)}
                    onTyped={given(lead.id, 'resistance')}
                  />
                </td>
                <td data-name="to body" className="in">
                  <ReadingInput
                    bare
                    label={`${lead.id} to body metal, ohm`}
                    value={shownValue(typed, 'to-body', lead.id, toBody)}
                    onTyped={given(lead.id, 'to-body')}
                  />
                </td>
                <td data-name="verdict" className="vd">
                  {fits === null ? (
                    <span className="quiet">{says}</span>
                  ) : (
                    <SeverityMark severity={fits ? 'ok' : 'stop'}>{says}</SeverityMark>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <div className="meter-line">
        <NumberInput
          label="Probes together read"
          quantity={quantities.ohms}
          range={{ min: 0, max: 10 }}
          hint="short the probes first; it is taken off every reading"
          value={probesOhm}
          onTyped={(entry) => ('value' in entry ? setProbesOhm(entry.value) : undefined)}
        />
        <p className="said">
          Amplifier unplugged. Read at its end of the lead, coils cold; press the cone gently: a reading that jumps is a
          broken lead to the coil. Each lead to body metal must read open.
        </p>
        <button type="submit" className="btn keep" disabled={actions.busy || typed.size === 0 || wrong.size > 0}>
          {typed.size > 1 ? `Keep ${typed.size} readings` : 'Keep the reading'}
        </button>
      </div>
    </form>
  );
}

function shownValue(
  typed: ReadonlyMap<string, { value: Value }>,
  quantity: Quantity,
  lead: string,
  reading: PartOf<'reading'> | undefined,
): Value {
  const entry = typed.get(`${quantity} ${lead}`);
  return entry === undefined ? reading?.value : entry.value;
}

/** A reading set under the id that it had, or a new one; cleared, it is taken out. */
function readingChange(
  plan: Plan,
  rows: readonly LeadRow[],
  { of, quantity, value }: { of: string; quantity: Quantity; value: Value },
  probesOhm: number | undefined,
): PlanChange[] {
  const row = rows.find(({ lead }) => lead.id === of);
  const known =
    (quantity === 'resistance' ? row?.reading : row?.toBody) ??
    plan.reading.find((each) => each.of === of && each.quantity === quantity);
  const id = known?.id ?? `${quantity === 'resistance' ? 'M' : 'B'}-${of}`.slice(0, 32);
  if (value === undefined) return known === undefined ? [] : [{ part: 'reading', id, value: null }];
  const probes = quantity === 'resistance' && probesOhm !== undefined ? { probesOhm } : {};
  return [{ part: 'reading', id, value: { ...known, id, of, quantity, value, ...probes } }];
}
