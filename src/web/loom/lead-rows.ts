// Speaker leads with what they join, what a meter should read on them, what it read, and what that means.
import { fixedText, type NumberStyle } from '../../charts/number-words.ts';
import { isSpeakerLead, type LeadRow as ListedLead, leadList } from '../../job/leads/lead-list.ts';
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
  /** Holds what was planned, and nothing else would read so; null while nobody can say. */
  fits: boolean | null;
  /** What the verdict says. */
  says: string;
}

const ohms = (value: number | 'open', style: NumberStyle) => (value === 'open' ? 'open' : fixedText(value, 1, style));

const fitsOf: Record<ListedLead['verdict'], boolean | null> = {
  fits: true,
  differs: false,
  ambiguous: false,
  doubtful: null,
  'not-measured': null,
  'cannot-say': null,
};

/** The lead list's speaker leads, in its order: as a person walks the car. @param stale readings that no longer count */
export function leadRows(view: PlanView, style: NumberStyle, stale: readonly string[] = []): LeadRow[] {
  return leadList(view.plan, { stale }).flatMap((listed): LeadRow[] => {
    const lead = view.part('lead', listed.id);
    if (lead === undefined || !isSpeakerLead(lead)) return [];
    const driver = view.part('driver', lead.to?.split('/')[0]);
    const { expected } = listed;
    // What no longer counts is to be typed again.
    const reading = listed.verdict === 'doubtful' ? undefined : view.part('reading', listed.measured?.reading);
    const toBody = listed.toBody?.verdict === 'doubtful' ? undefined : view.part('reading', listed.toBody?.reading);
    return [
      {
        lead,
        from: (lead.from ?? 'nothing yet').replace('/', ''),
        to: view.part('place', driver?.place)?.name ?? lead.to ?? 'nothing yet',
        driver: driver?.name ?? driver?.model ?? '',
        under: listed.under.join(', '),
        expects: expected === null ? '' : rangeText(expected, style),
        ...(reading === undefined ? {} : { reading }),
        ...(toBody === undefined ? {} : { toBody }),
        fits: fitsOf[listed.verdict],
        says: listed.says,
      },
    ];
  });
}

function rangeText({ lowOhm, highOhm }: NonNullable<ListedLead['expected']>, style: NumberStyle): string {
  return lowOhm === 'open' ? 'open' : `${ohms(lowOhm, style)} to ${ohms(highOhm, style)}`;
}
