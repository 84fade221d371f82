// The first time: what belongs here, and the first act.
import { vehicleBodies } from '../../charts/vehicle/bodies.ts';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import { Icon } from '../parts/Icon.tsx';
import { PlanView } from '../plan/PlanView.tsx';
import { goTo } from '../router.ts';
import { Heading, Page } from '../shell/Page.tsx';
import { OpenJobFile } from './OpenJobFile.tsx';

const drawing = planDrawing(vehicleBodies.van, { hand: 'right', pxPerM: 126, padX: 24, padY: 4 });

export function FirstRun() {
  return (
    <Page
      name="first-run"
      title="First run"
      head={{ id: { text: 'Kickpanel' }, fields: [{ name: 'Bench', text: 'No jobs yet' }] }}
      says="Start with the vehicle in front of you."
      ownHeading
      bar={{
        main: {
          text: 'New job card',
          small: 'vehicle, owner, what they asked for',
          onPress: () => goTo({ page: 'new-job' }),
        },
      }}
    >
      <div>
        <Heading>Start with the vehicle in front of you.</Heading>
        <p className="p">
          A job card holds everything: what stands in the bay, what was recorded, what the recordings say, and what is
          proven. You can fill it in any order.
        </p>
        <div className="alt">
          <button type="button" className="btn wide" onClick={() => document.getElementById('job-file')?.click()}>
            <span>
              Open a job file
              <small>from another device or the archive</small>
            </span>
            <Icon name="arrow" />
          </button>
          <button type="button" className="btn wide" onClick={() => goTo({ page: 'live', job: null })}>
            <span>
              Listen with a microphone
              <small>bands of what it hears now, without a job</small>
            </span>
            <Icon name="arrow" />
          </button>
        </div>
        <OpenJobFile />
      </div>
      <div className="vehicle">
        <svg className="drop" viewBox="0 0 60 96" preserveAspectRatio="none" aria-hidden="true" focusable="false">
          {[0, 1, 2, 3, 4, 5].map((lead) => (
            <path
              key={lead}
              d={`M${12 + lead * 7.2} 0C${12 + lead * 7.2} 40 ${24.5 + lead * 2.2} 50 ${18 + lead * 5} 96`}
              stroke={`var(--lead-${lead + 1})`}
            />
          ))}
        </svg>
        <PlanView
          drawing={drawing}
          label="Plan view of a van, nose at the top"
          stateOf={() => 'ghost'}
          letters={false}
          places={false}
        />
      </div>
    </Page>
  );
}
