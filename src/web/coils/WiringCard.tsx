// One way to wire the coils: its picture, its load, who gets the power, what the meter must read.
import { fixedText, type NumberStyle, significantText } from '../../charts/number-words.ts';
import { type Severity, SeverityMark } from '../parts/Severity.tsx';
import { useNumbers } from '../settings.ts';
import { CoilTreeView } from './CoilTreeView.tsx';
import { TerminalPicture, type TerminalWay } from './TerminalPicture.tsx';
import type { WiringFacts } from './wiring-facts.ts';

export const ohmText = (value: number | 'open', style: NumberStyle): string =>
  value === 'open' ? 'open' : `${value < 10 ? fixedText(value, 1, style) : significantText(value, 3, style)} ohm`;

export interface ShownWiring extends WiringFacts {
  /** Drawn at the terminals, for one driver of two coils. */
  way?: TerminalWay;
  /** One coil works against the other. */
  turned?: boolean;
}

/** What speaks for or against a wiring, in a few words. */
export function wiringVerdict(
  { amplifier, turned, open, even, shares, hottestW, coilStandsW }: ShownWiring,
  least: number | undefined,
  style: NumberStyle,
): [Severity, string] {
  if (turned) return ['stop', 'the cone stands still'];
  if (amplifier === 'below') return ['stop', `under the ${significantText(least ?? 0, 3, style)} ohm limit`];
  if (hottestW !== undefined && coilStandsW !== undefined && open.length > 0 && hottestW > coilStandsW) {
    return ['stop', 'one coil takes it all'];
  }
  if (open.length > 0) return ['fix', 'half the motor is left out'];
  if (!even) {
    const most = Math.max(...shares.map(({ share }) => share));
    return ['fix', `one coil takes ${fixedText(100 * most, 0, style)} %`];
  }
  return amplifier === 'open' ? ['note', 'lowest load not known'] : ['ok', 'holds'];
}

function meaning(facts: ShownWiring, style: NumberStyle): string {
  if (facts.turned) return 'the meter cannot tell: only a 1.5 V cell can, the cone must move out';
  if (facts.amplifier === 'below') return 'the amplifier shuts down, overheats or fails';
  const { hottestW, coilStandsW } = facts;
  if (facts.open.length > 0 && hottestW !== undefined && coilStandsW !== undefined) {
    return `one coil gets ${significantText(hottestW, 3, style)} W and stands ${significantText(coilStandsW, 3, style)} W`;
  }
  const { lowOhm, highOhm } = facts.reads;
  const window =
    lowOhm === 'open' || highOhm === 'open'
      ? ''
      : `${ohmText(lowOhm, style).replace(' ohm', '')} to ${ohmText(highOhm, style)}; `;
  return `${window}and it pushes out on a 1.5 V cell`;
}

interface WiringCardProps {
  facts: ShownWiring;
  chosen: boolean;
  planned: boolean;
  amplifier: string;
  least: number | undefined;
  onChoose: () => void;
}

export function WiringCard({ facts, chosen, planned, amplifier, least, onChoose }: WiringCardProps) {
  const style = useNumbers();
  const { name, way, network, even, ohm, watt, turned, shares } = facts;
  const [severity, word] = wiringVerdict(facts, least, style);
  const power = turned
    ? 'heat only'
    : facts.amplifier === 'below'
      ? 'not rated'
      : watt === undefined
        ? 'power not known'
        : `${significantText(watt, 3, style)} W`;
  const title = name[0].toUpperCase() + name.slice(1);
  return (
    <button type="button" className="wy" aria-pressed={chosen} onClick={onChoose}>
      <b>
        {title}
        {planned ? <small> in the plan</small> : null}
      </b>
      {way ? (
        <TerminalPicture
          way={way}
          amplifier={amplifier}
          label={`${title}, from behind: ${ohmText(ohm, style)}, ${power}, the meter reads ${ohmText(facts.reads.midOhm, style)}`}
        />
      ) : (
        <span className="tree">
          <CoilTreeView network={network} even={even} />
        </span>
      )}
      <SeverityMark severity={severity}>{word}</SeverityMark>
      <span className="ld">
        <b>{ohmText(ohm, style).replace(`${style.decimal}0 ohm`, ' ohm')}</b>
        <span>{power}</span>
      </span>
      <span className="shr">
        <span>share</span>
        {shares.map(({ coil, share }) => (
          <i key={coil} title={coil}>
            <u style={{ width: `${100 * share}%` }} />
            <span className="unseen">
              {coil} {fixedText(100 * share, 0, style)} %
            </span>
          </i>
        ))}
      </span>
      <span className="mt">
        <span>Meter reads</span>
        <b>{ohmText(facts.reads.midOhm, style)}</b>
        <small>{meaning(facts, style)}</small>
      </span>
    </button>
  );
}
