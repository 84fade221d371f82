// The plan as lanes from source to driver: what is wrong under the lane it concerns, one press to mend it.
import './plan-lanes.css';
import { useState } from 'react';
import { kindOf } from '../../plan/plan.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { type EditedPart, newPart, PartEditor } from '../part-editor/PartEditor.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { headOf } from '../shop/job-words.ts';
import { useJob } from '../shop/use-job.ts';
import { CannotTell, FindingsList } from './FindingsList.tsx';
import { Lanes } from './Lanes.tsx';
import { lanesOf } from './lanes.ts';
import { likeFindings } from './like-findings.ts';
import { PartsList } from './PartsList.tsx';
import { countsSentence, isEmpty, mendWords, placesWords, planSentence, stands } from './plan-words.ts';
import { StartPlan } from './StartPlan.tsx';
import { type PlanOfJob, usePlan } from './use-plan.ts';

interface PlanScreenProps {
  job: string;
  part: string | null;
}

export function PlanScreen({ job, part }: PlanScreenProps) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <PlanCard view={value} part={part} />;
}

/** The first stop that one press mends; then the way on. */
function mainAction(
  { plan, check, actions }: PlanOfJob,
  job: string,
  style: ReturnType<typeof useNumbers>,
): MainAction {
  const first = likeFindings(check.findings).find(
    ([found]) => found.severity === 'stop' && stands(found) && found.changes !== undefined,
  );
  const words = first === undefined ? null : mendWords(plan, first, style);
  if (first !== undefined && words !== null) {
    return { text: words, small: `clears the stop at ${placesWords(first)}`, onPress: () => void actions.mend(first) };
  }
  const small = check.stops > 0 ? `${check.stops} to stop for stay open` : 'fuses, leads and what they should read';
  return { text: 'Go to the loom', small, onPress: () => goTo({ page: 'loom', job, lead: null }) };
}

function PlanCard({ view, part }: { view: JobView; part: string | null }) {
  const style = useNumbers();
  const ofJob = usePlan(view);
  const { plan, check, actions, undo } = ofJob;
  const [begun, setBegun] = useState(false);
  const asked = part === null ? null : kindOf(plan, part);
  const [edited, setEdited] = useState<EditedPart | null>(
    asked === null || part === null ? null : { kind: asked, id: part },
  );
  const empty = isEmpty(plan);
  const rows = lanesOf(plan, check.findings);
  const job = view.job.id;
  const dual = plan.load.find(({ network }) => network !== undefined && typeof network !== 'string');
  return (
    <Page
      name="plan"
      title={`Plan of job ${view.job.number ?? view.job.name}`}
      head={headOf(view, job)}
      job={job}
      stage={1}
      says={planSentence(rows, check)}
      bar={{
        undo,
        why: empty ? 'Each change is one line of the journal and can be undone.' : countsSentence(check),
        seconds: empty
          ? [{ text: 'Back to the card', onPress: () => goTo({ page: 'job', job }) }]
          : [
              {
                text: 'Coil wiring',
                onPress: () => goTo({ page: 'coils', job, load: dual?.id ?? null }),
              },
            ],
        ...(empty
          ? {
              main: {
                text: 'Seven channels, all active',
                small: 'or one of the others above',
                onPress: () => void actions.startFrom({ command: 'startPlanFromTemplate', template: 'seven-channel' }),
              },
            }
          : { main: mainAction(ofJob, job, style) }),
      }}
    >
      {actions.error ? <ErrorCard error={actions.error} /> : null}
      {empty && !begun ? (
        <StartPlan actions={actions} onNothing={() => setBegun(true)} />
      ) : (
        <>
          {rows.length > 0 ? (
            <Lanes
              plan={plan}
              rows={rows}
              actions={actions}
              onEdit={setEdited}
              onNew={(kind) => setEdited(newPart(plan, kind))}
            />
          ) : null}
          <div className="plan-below">
            {empty ? null : <FindingsList plan={plan} check={check} actions={actions} />}
            <CannotTell plan={plan} check={check} onEdit={setEdited} />
            <PartsList plan={plan} actions={actions} onEdit={setEdited} />
          </div>
        </>
      )}
      {edited === null ? null : (
        <PartEditor key={`${edited.kind} ${edited.id}`} view={view} edited={edited} onClose={() => setEdited(null)} />
      )}
    </Page>
  );
}
