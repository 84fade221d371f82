// The path of the signal with the cuts through it: what is under suspicion, what is cleared, where it is cut next.
import type { NoisePath, PathStage } from '../../measurement/noise-hunt/noise-path.ts';
import { Icon } from '../parts/Icon.tsx';
import { testNamesShort } from './hunt-words.ts';

const names: Record<PathStage, string> = {
  source: 'Source',
  'signal leads': 'Signal leads',
  processor: 'Processor',
  amplifier: 'Amplifier',
  drivers: 'Drivers',
};

export function HuntPath({ path: { stages, cuts, contradiction } }: { path: NoisePath }) {
  return (
    <ol className={`hunt-path${contradiction ? ' torn' : ''}`} aria-label="The path of the signal">
      {stages.map(({ stage, suspect }) => {
        const cut = cuts.find(({ before }) => before === stage);
        return (
          <li key={stage} className={suspect ? 'suspect' : 'cleared'}>
            {cut ? <Cut cut={cut} /> : null}
            <div className="stage">
              <b>{names[stage]}</b>
              <small>{suspect ? 'suspect' : 'cleared'}</small>
            </div>
          </li>
        );
      })}
    </ol>
  );
}

function Cut({ cut: { test, heard } }: { cut: NoisePath['cuts'][number] }) {
  return (
    <p className={`cut${heard === null ? ' now' : ''}`}>
      {heard === null ? (
        <b className="tape">cut here next</b>
      ) : (
        <b className={heard === 'silent' ? 'ok' : 'fix'}>
          <Icon name={heard === 'silent' ? 'ok' : 'fix'} />
          {heard}
        </b>
      )}
      <small>{testNamesShort[test].toLowerCase()}</small>
    </p>
  );
}
