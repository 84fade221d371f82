// The safe high-pass and what asks for it: stroke at full power, the resonance, the maker.
import { frequencyText, significantText } from '../../charts/number-words.ts';
import { Facts } from '../parts/Facts.tsx';
import { useNumbers } from '../settings.ts';
import type { SafeHighPass } from './driver-model.ts';

export function SafeHighPassPanel({ safe, order, channel }: { safe: SafeHighPass; order: number; channel: string }) {
  const style = useNumbers();
  const { strokeHz, resonanceHz, resonanceTimes, makerHz, safeHz } = safe;
  return (
    <section aria-labelledby="safe">
      <h2 id="safe">
        Safe high-pass{' '}
        <small>
          {channel}, {6 * order} dB per octave
        </small>
      </h2>
      <Facts
        label="Safe high-pass"
        rows={[
          [
            'By travel at full power',
            strokeHz === 'none-helps'
              ? 'none is enough'
              : strokeHz === null
                ? 'none is needed'
                : frequencyText(strokeHz, style),
          ],
          [
            `By resonance, ${significantText(resonanceTimes, 2, style)} times`,
            resonanceHz === null ? '' : frequencyText(resonanceHz, style),
          ],
          ['By its maker', makerHz === null ? '' : frequencyText(makerHz, style)],
          ['Safe is', safeHz === null ? (strokeHz === null ? 'any' : '') : `${frequencyText(safeHz, style)} and up`],
        ]}
      />
    </section>
  );
}
