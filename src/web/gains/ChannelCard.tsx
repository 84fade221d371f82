// One amplifier channel: the volts to turn its gain to, the tone, what was read, and what hisses afterwards.
import { frequencyText, type NumberStyle } from '../../charts/number-words.ts';
import type { GainRow } from '../../job/gains/gain-sheet.ts';
import { Icon } from '../parts/Icon.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { whenText } from '../parts/times.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { tagOf } from '../proof/PointRow.tsx';
import { hissWords, settingsWords, typedGain, voltsText } from './gains-words.ts';
import { VoltsField } from './VoltsField.tsx';

interface ChannelCardProps {
  row: GainRow;
  /** The one to set next. */
  next: boolean;
  busy: boolean;
  style: NumberStyle;
  onRead: (holdPoint: string, valueV: number) => Promise<boolean>;
}

export function ChannelCard({ row, next, busy, style, onRead }: ChannelCardProps) {
  const { terminal, words, channel, drivers, state, reading, tone, target, measured, says, covers, verdict } = row;
  const settings = settingsWords(row, style);
  const off = verdict === 'too-low' || verdict === 'too-high';
  return (
    <li className={`channel ${state}${next ? ' next' : ''}`} data-point={row.holdPoint}>
      <h3>
        <b>{terminal}</b>
        <span>
          {[words, channel === null ? '' : `channel ${channel}`, drivers.join(', ')].filter(Boolean).join('; ')}
        </span>
        <span className="state">
          <Icon name={tagOf[state]} />
          {state}
        </span>
      </h3>
      <div className="set">
        <p className="target">
          {reading === null ? (
            <span className="quiet">cannot tell</span>
          ) : (
            <>
              <small>Target</small>
              <b>{voltsText(reading.targetV, style)}</b>
              <small>
                {voltsText(reading.lowV, style)} to {voltsText(reading.highV, style)}
              </small>
            </>
          )}
        </p>
        <VoltsField
          label={`Meter on ${terminal}, AC volts`}
          busy={busy}
          verdict={(value) => {
            const typed = typedGain(value, reading, style);
            return typed === null ? null : (
              <SeverityMark severity={typed.verdict === 'within' ? 'ok' : 'fix'}>{typed.says}</SeverityMark>
            );
          }}
          keep={`Keep ${terminal}`}
          onKeep={(value) => onRead(row.holdPoint, value)}
        />
      </div>
      {measured === null ? null : (
        <p className={`was ${off ? 'off' : ''}`}>
          <b>{voltsText(measured.readV, style)}</b> was read by {measured.who}, {whenText(measured.when, new Date())}.{' '}
          {off ? 'It stays open.' : ''}
        </p>
      )}
      <p className="says">{trueMinus(says)}</p>
      <ul className="gain-facts">
        {tone === null ? null : (
          <li>
            Tone {frequencyText(tone.fHz, style)} at {trueMinus(`${tone.toneDbfs} dBFS`)}
            {reading === null ? '' : `; with the driver unplugged set ${voltsText(reading.unloadedV, style)}`}
          </li>
        )}
        {target === null ? null : (
          <li>
            Full scale {voltsText(target.fullV, style)}, set by the {target.limitedBy}; it clips at{' '}
            {voltsText(target.amplifierClipV, style)}
          </li>
        )}
        {settings === null ? null : <li>{settings}</li>}
        {hissWords(row, style).map(({ text, severity }) => (
          <li key={text}>{severity === null ? text : <SeverityMark severity={severity}>{text}</SeverityMark>}</li>
        ))}
        {covers.length === 0 ? null : <li>Behind {covers.map(({ name, cover }) => name ?? cover).join(' and ')}</li>}
      </ul>
    </li>
  );
}
