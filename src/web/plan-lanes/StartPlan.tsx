// An empty plan: the usual cars to start from, or nothing.
import { type TemplateName, templateNames } from '../../plan/templates/templates.ts';
import type { PlanActions } from './use-plan.ts';

const words: Record<TemplateName, { name: string; gets: string }> = {
  'two-way-front': { name: 'Two-way front', gets: 'pillar treble and door midbass, four channels' },
  'two-way-front-sub': { name: 'Two-way front and a sub', gets: 'five channels, one amplifier for the sub' },
  'two-way-front-rear-sub': { name: 'Two-way front, rear and a sub', gets: 'seven channels, rear doors played low' },
  'three-way-front-sub': { name: 'Three-way front and a sub', gets: 'seven channels, six of them from one amplifier' },
  'three-way-front-two-subs': { name: 'Three-way front, two subs', gets: 'eight channels, four amplifiers' },
  'factory-integrated': { name: 'Behind the factory radio', gets: 'speaker level in, two-way front and a sub' },
  'seven-channel': {
    name: 'Seven channels, all active',
    gets: 'pillar treble, kick-panel middle, door midbass, a sub of two coils',
  },
};

interface StartPlanProps {
  actions: PlanActions;
  onNothing: () => void;
}

export function StartPlan({ actions, onNothing }: StartPlanProps) {
  return (
    <section className="start" aria-label="Start the plan">
      <ul>
        {templateNames.map((template) => (
          <li key={template}>
            <button
              type="button"
              className="btn wide"
              disabled={actions.busy}
              onClick={() => void actions.startFrom({ command: 'startPlanFromTemplate', template })}
            >
              <span>
                {words[template].name}
                <small>{words[template].gets}</small>
              </span>
            </button>
          </li>
        ))}
        <li>
          <button type="button" className="btn wide" onClick={onNothing}>
            <span>
              Start from nothing
              <small>add each part by hand, or drivers from a table</small>
            </span>
          </button>
        </li>
      </ul>
      <p className="said">
        A start has parts of the shelf in their places. Everything in it can be changed; sizes, lengths and readings are
        left open for your tape and your meter.
      </p>
    </section>
  );
}
