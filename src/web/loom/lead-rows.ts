// Speaker leads with what they join, what a meter should read on them, what it read, and what that means.
import { fixedText, type NumberStyle } from '../../charts/number-words.ts';
import { expectedReading, laneOfLead, type ReadWiring, readWiring } from '../../job/rules/lead-readings.ts';
import type { PlanView } from '../../job/rules/plan-view.ts';
import type { PartOf } from '../../plan/plan.ts';

export interface LeadRow {
  lead: PartOf<'lead'>;
  from: string;
  /** Place and driver at the far end. */
  to: string;
  driver: string;
  /** Covers that it runs under. */
  under: string;
  /** Such as `3.4 to 4.1`; empty where the coils are not known. */
  expects: string;
  reading?: PartOf<'reading'>;
  toBody?: PartOf<'reading'>;
  /** What the reading fits; absent without one. */
  read?: ReadWiring;
  /** Holds what was planned, and nothing else would read so. */
  fits: boolean | null;
  /** What the verdict says. */
  says: string;
}

const ohms = (value: number | 'open', style: NumberStyle) => (value === 'open' ? 'open' : fixedText(value, 1, style));

/** The last reading of a part that still counts. */
function countingReading(view: PlanView, of: string, quantity: PartOf<'reading'>['quantity']) {
  return view.readings(of, quantity).at(-1);
}

function verdict(read: ReadWiring | undefined, reading: PartOf<'reading'> | undefined): Pick<LeadRow, 'fits' | 'says'> {
  if (reading?.value === undefined) return { fits: null, says: 'waits for the meter' };
  if (read === undefined) return { fits: null, says: 'the coils of its drivers are not known' };
  const [first, ...others] = read.matches;
  if (first === undefined) return { fits: false, says: 'fits no wiring of these coils' };
  if (first !== 'as planned') return { fits: false, says: `looks like ${[first, ...others].join(', or ')}` };
  if (others.length > 0) return { fits: false, says: `as planned, or ${others.join(', or ')}` };
  return { fits: true, says: 'as planned' };
}

export function leadRows(view: PlanView, style: NumberStyle): LeadRow[] {
  return view.plan.lead
    .filter(({ kind }) => kind === undefined || kind === 'speaker')
    .map((lead): LeadRow => {
      const lane = laneOfLead(view, lead);
      const driver = view.part('driver', lead.to?.split('/')[0]);
      const place = view.part('place', driver?.place);
      const expected = expectedReading(view, lead);
      const reading = countingReading(view, lead.id, 'resistance');
      const toBody = countingReading(view, lead.id, 'to-body');
      const read = lane === undefined || reading === undefined ? undefined : readWiring(lane, lead, reading);
      return {
        lead,
        from: (lead.from ?? 'nothing yet').replace('/', ''),
        to: place?.name ?? lead.to ?? 'nothing yet',
        driver: driver?.name ?? driver?.model ?? '',
        under: (lead.under ?? []).map((id) => view.part('cover', id)?.name ?? id).join(', '),
        expects:
          expected === undefined
            ? ''
            : expected.lowOhm === 'open'
              ? 'open'
              : `${ohms(expected.lowOhm, style)} to ${ohms(expected.highOhm, style)}`,
        ...(reading === undefined ? {} : { reading }),
        ...(toBody === undefined ? {} : { toBody }),
        ...(read === undefined ? {} : { read }),
        ...verdict(read, reading),
      };
    });
}
