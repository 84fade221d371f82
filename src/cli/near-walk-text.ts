// A near-field walk in words: danger first, then place by place, then what explains it and what to do next.
import type { NearPlaceAnswer, NearWalkAnswer } from '../wiring/near-walk.ts';
import type { TextStyle } from './output.ts';
import { wrapped } from './wrap.ts';

const SHOWN = 8;

const headlines: Record<NearWalkAnswer['status'], string> = {
  'as planned': 'Every place that was heard is fed as planned.',
  explained: 'One set of faults explains all takes:',
  tie: 'These sets of faults explain the takes about equally well:',
  unexplained: 'No plausible set of wiring faults explains the takes.',
  'nothing to go by': 'None of the takes could be read.',
};

const verdictWords = { 'as-planned': 'as planned', differs: 'DIFFERS', 'cannot-say': 'cannot say' };

function bandWords(band: NearPlaceAnswer['band']): string {
  const end = (fHz: number | null) => (fHz === null ? '?' : `${Math.round(fHz)}`);
  return band && (band.lowHz !== null || band.highHz !== null) ? `${end(band.lowHz)} to ${end(band.highHz)} Hz` : '';
}

function placeLines({ place, verdict, side, polarity, band, why }: NearPlaceAnswer, width: number): string[] {
  const sign = polarity.againstPlan === 0 ? '?' : polarity.againstPlan > 0 ? '+' : '-';
  const said = [side === null ? 'side ?' : side, `polarity ${sign}`, bandWords(band)].filter((word) => word !== '');
  return [
    ...wrapped(`${place}: ${verdictWords[verdict]} (${said.join(', ')})`, width, 2),
    ...wrapped(`  ${why}`, width, 2),
  ];
}

/** The answer for a person. */
export function nearWalkText(answer: NearWalkAnswer, { width }: TextStyle): string {
  const { status, explanations, findings, places, nextTests, remarks, notProven } = answer;
  const lines = findings.flatMap(({ message, clears }) => [
    ...wrapped(message, width, 2),
    ...wrapped(`  ${clears}`, width, 2),
    '',
  ]);
  lines.push(...places.flatMap((place) => placeLines(place, width)), '', headlines[status]);
  const shown = explanations.filter(() => status !== 'as planned');
  lines.push(
    ...shown
      .slice(0, SHOWN)
      .flatMap(({ faults }) => wrapped(`  ${faults.length === 0 ? 'all as planned' : faults.join(', ')}`, width, 4)),
  );
  if (shown.length > SHOWN) lines.push(`  and ${shown.length - SHOWN} more`);
  lines.push(...remarks.flatMap((remark) => wrapped(remark, width)));
  const [next] = nextTests;
  if (next) lines.push('', ...wrapped(`Test next: ${next.test}`, width));
  if (notProven.length > 0) lines.push(...wrapped(`Not proven yet: ${notProven.join(', ')}.`, width, 2));
  if (shown.length > 0) {
    const caution = 'Before a lead is moved: volume down, amplifier off.';
    lines.push('', ...wrapped(`Caution: ${caution}`, width, 2));
  }
  return `${lines.join('\n')}\n`;
}
