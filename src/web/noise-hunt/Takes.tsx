// The takes of the hunt: three that it lives by, and four more that tell what the system alone does.
import type { TakeRole } from '../../measurement/noise-hunt/hunt-step.ts';
import type { NoiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import { TakeSlot } from './TakeSlot.tsx';
import { type HuntInput, rpmOf } from './use-hunt-inputs.ts';

const usual: readonly TakeRole[] = ['off', 'idle', 'revs'];
const more: readonly TakeRole[] = ['systemOff', 'engineAlone', 'turnOn', 'turnOff'];

export function Takes({ input, hunt }: { input: HuntInput; hunt: NoiseHunt | null }) {
  const { hunted, typed, recorder, microphones } = input;
  const wanted = hunt === null ? 'off' : hunt.next.record;
  const rpmField = (of: 'idleRpm' | 'revsRpm') => ({
    typed: typed[of],
    wrong: typed[of].trim() !== '' && rpmOf(typed[of]) === undefined ? 'A whole number from 100 to 20000.' : undefined,
    onType: (text: string) => input.typeRpm(of, text),
  });
  const slot = (role: TakeRole) => (
    <TakeSlot
      key={role}
      role={role}
      take={hunted.takes[role]}
      read={hunt?.takes.find(({ take }) => take === role)}
      wanted={wanted === role}
      recordingS={recorder.role === role ? recorder.seconds : null}
      held={recorder.role !== null}
      onTake={(take) => input.give(role, take)}
      onRecord={() => recorder.start(role)}
      onStop={recorder.stop}
      {...(role === 'idle' ? { rpm: rpmField('idleRpm') } : role === 'revs' ? { rpm: rpmField('revsRpm') } : {})}
    />
  );
  const open = wanted !== null && more.includes(wanted);
  return (
    <>
      <div className="slots">{usual.map(slot)}</div>
      <details
        className="more-takes"
        key={open ? 'open' : 'shut'}
        open={open || more.some((role) => hunted.takes[role])}
      >
        <summary>More takes: all off, the engine alone, turning on and off</summary>
        <div className="slots">{more.map(slot)}</div>
        {microphones.length === 0 ? null : (
          <label className="which">
            <span>Recorded with</span>
            <select value={typed.microphone} onChange={({ target }) => input.chooseMicrophone(target.value)}>
              <option value="">a microphone that is not calibrated</option>
              {microphones.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        )}
      </details>
    </>
  );
}
