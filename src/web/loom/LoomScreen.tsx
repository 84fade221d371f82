// The loom: power as a river, fuses against their cables, every lead with what the meter should read on it.
import './loom.css';
import '../plan-lanes/plan-lanes.css';
import { useEffect, useState } from 'react';
import { isSpeakerLead } from '../../job/leads/lead-list.ts';
import { planView } from '../../job/rules/plan-view.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { type EditedPart, newPart, PartEditor } from '../part-editor/PartEditor.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { likeFindings } from '../plan-lanes/like-findings.ts';
import { PlanFindingCard } from '../plan-lanes/PlanFindingCard.tsx';
import { mendWords, placesWords, stands } from '../plan-lanes/plan-words.ts';
import { usePlan } from '../plan-lanes/use-plan.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { headOf } from '../shop/job-words.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { FuseChart } from './FuseChart.tsx';
import { Gate, tickedGate } from './Gate.tsx';
import { LeadTable } from './LeadTable.tsx';
import { leadRows } from './lead-rows.ts';
import { type Caution, gates, highVoltageGate, leadCautions, loomSentence, powerCautions } from './loom-words.ts';
import { Papers } from './Papers.tsx';
import { fuseRows } from './power-model.ts';
import { River } from './River.tsx';
import { SizesTable } from './SizesTable.tsx';

interface LoomScreenProps {
  job: string;
  /** The lead whose label brought the person here. */
  lead: string | null;
}

export function LoomScreen({ job, lead }: LoomScreenProps) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <Loom view={value} scanned={lead} />;
}

/** The place where the reading of a lead is typed. */
function focusReadingOf(lead: string | undefined): void {
  const input = document.querySelector<HTMLInputElement>(`[data-lead="${CSS.escape(lead ?? '')}"] .in input`);
  input?.focus();
  input?.scrollIntoView({ block: 'center' });
}

/** Findings of what is laid in this stage. */
const isLoom = (place: string) => /^(run|fuse|ground|lead|leads|battery|vehicle|amplifier|block)\b/.test(place);

function Cautions({ cautions }: { cautions: readonly Caution[] }) {
  return (
    <ul className="cautions" aria-label="Cautions">
      {cautions.map(({ id, text }) => (
        <li key={id}>{trueMinus(text)}</li>
      ))}
    </ul>
  );
}

function Loom({ view, scanned }: { view: JobView; scanned: string | null }) {
  const style = useNumbers();
  const { plan, check, actions, undo } = usePlan(view);
  const { wish } = useWish(view.job.id);
  const [edited, setEdited] = useState<EditedPart | null>(() => {
    // A lead without a coil at its end has no row to be read in: its own sheet opens.
    const lead = view.job.plan.parts.lead.find(({ id }) => id === scanned);
    return lead === undefined || isSpeakerLead(lead) ? null : { kind: 'lead', id: lead.id };
  });
  const [typing, setTyping] = useState<'power' | 'leads' | null>(null);
  useEffect(() => {
    if (scanned !== null) focusReadingOf(scanned);
  }, [scanned]);
  const stale = view.job.plan.stale.map(({ reading }) => reading);
  const parts = planView(plan, { readingsStale: stale });
  const rows = fuseRows(parts, check.findings);
  const leads = leadRows(parts, style, stale);
  const missing = scanned !== null && !plan.lead.some(({ id }) => id === scanned);
  const found = likeFindings(check.findings).filter(([{ place }]) => isLoom(place));
  const unread = leads.filter(({ reading }) => reading === undefined);
  const job = view.job.id;
  const says = loomSentence(
    {
      rows,
      leads: leads.length,
      unread: unread.length,
      unfit: leads.filter(({ fits }) => fits === false).map(({ lead }) => lead.id),
      stops: found.filter(([finding]) => finding.severity === 'stop' && stands(finding)).length,
    },
    style,
  );
  const mend = found.find(
    ([finding]) => finding.severity === 'stop' && stands(finding) && finding.changes !== undefined,
  );
  const main: MainAction =
    rows.length + leads.length === 0
      ? {
          text: 'Go to the plan',
          small: 'it gives the loom its runs and leads',
          onPress: () => goTo({ page: 'plan', job, part: null }),
        }
      : mend !== undefined
        ? {
            text: mendWords(plan, mend, style) ?? 'Mend it',
            small: `clears the stop at ${placesWords(mend)}`,
            onPress: () => void actions.mend(mend),
          }
        : rows.some(({ verdict }) => verdict === 'unknown')
          ? { text: 'Type sizes and fuses', small: 'all runs at one go', onPress: () => setTyping('power') }
          : {
              text: 'Type what the meter reads',
              small: `${unread.length} of ${leads.length} leads to go`,
              onPress: () => focusReadingOf(unread[0]?.lead.id ?? leads[0]?.lead.id),
            };
  const off = tickedGate(view, 'C-01') !== undefined;
  return (
    <Page
      name="loom"
      title={`Loom of job ${view.job.number ?? view.job.name}`}
      head={headOf(view, job)}
      job={job}
      stage={2}
      says={says}
      bar={{
        undo,
        why: off ? 'Battery negative is off. Keep it off.' : 'Battery negative off first.',
        seconds: [{ text: 'Plan', onPress: () => goTo({ page: 'plan', job, part: null }) }],
        main,
      }}
    >
      {actions.error ? <ErrorCard error={actions.error} /> : null}
      {missing ? <p className="said">The label says {scanned}; this job’s plan has no such lead.</p> : null}
      <div className="two">
        <section aria-labelledby="power">
          <h2 id="power">Power</h2>
          {rows.length > 0 ? (
            <River view={parts} findings={check.findings} />
          ) : (
            <p className="said">No run is planned yet.</p>
          )}
        </section>
        <section aria-labelledby="fuses">
          <h2 id="fuses">Fuse chart</h2>
          {rows.length > 0 ? (
            <FuseChart
              rows={rows}
              onEdit={({ fuse, run }) =>
                setEdited(fuse === undefined ? { kind: 'run', id: run.id } : { kind: 'fuse', id: fuse.id })
              }
            />
          ) : (
            <p className="said">Each run shows its load, its fuse and its cable here.</p>
          )}
        </section>
      </div>
      <div className="gates">
        {gates.map((gate) => (
          <Gate key={gate.id} view={view} gate={gate} wish={wish} />
        ))}
        {plan.vehicle[0]?.highVoltage === true ? <Gate view={view} gate={highVoltageGate} wish={wish} /> : null}
      </div>
      <Cautions cautions={powerCautions} />
      {typing === 'power' ? (
        <SizesTable plan={plan} actions={actions} of="power" onDone={() => setTyping(null)} />
      ) : (
        <div className="ways">
          <button type="button" className="btn" onClick={() => setTyping('power')}>
            Sizes, lengths and fuses
          </button>
          <button type="button" className="btn" onClick={() => setEdited(newPart(plan, 'run'))}>
            Add a run
          </button>
          <button type="button" className="btn" onClick={() => setEdited(newPart(plan, 'fuse'))}>
            Add a fuse
          </button>
        </div>
      )}
      {found.length > 0 ? (
        <section className="all-findings" aria-label="Findings of the loom">
          <h2 className="h2s">Wrong in the loom</h2>
          <div className="findings">
            {found.map((group) => (
              <PlanFindingCard
                key={`${group[0].id} ${group[0].place} ${group[0].message}`}
                plan={plan}
                group={group}
                actions={actions}
              />
            ))}
          </div>
        </section>
      ) : null}
      <section aria-labelledby="leads">
        <h2 id="leads">Speaker leads</h2>
        <Cautions cautions={leadCautions} />
        {typing === 'leads' ? (
          <SizesTable plan={plan} actions={actions} of="leads" onDone={() => setTyping(null)} />
        ) : (
          <>
            {leads.length > 0 ? (
              <LeadTable
                plan={plan}
                rows={leads}
                scanned={scanned}
                actions={actions}
                onEdit={(id) => setEdited({ kind: 'lead', id })}
              />
            ) : (
              <p className="said">No lead is planned yet.</p>
            )}
            <div className="ways">
              <button type="button" className="btn" onClick={() => setTyping('leads')}>
                Sizes, lengths and colours
              </button>
              <button type="button" className="btn" onClick={() => setEdited(newPart(plan, 'lead'))}>
                Add a lead
              </button>
            </div>
          </>
        )}
      </section>
      <Papers job={job} called={view.job.number ?? view.job.name} leads={plan.lead.length} runs={rows.length} />
      {edited === null ? null : (
        <PartEditor key={`${edited.kind} ${edited.id}`} view={view} edited={edited} onClose={() => setEdited(null)} />
      )}
    </Page>
  );
}
