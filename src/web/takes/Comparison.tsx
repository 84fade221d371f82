// Takes over each other, and the difference of two of them.
import {
  differencePlot,
  differenceSentence,
  overlayPlot,
  responseDifference,
} from '../../charts/reading/comparison-plot.ts';
import { hearingHz } from '../../charts/reading/plot-options.ts';
import type { Reading } from '../../measurement/reading.ts';
import { Icon } from '../parts/Icon.tsx';
import { PlotView } from '../plot/PlotView.tsx';
import { levelReadout } from '../plot/readout.ts';
import { curvesCsv } from '../reading/csv.ts';
import { ExportButtons } from '../reading/ExportButtons.tsx';
import { PlotSection } from '../reading/ReadingPlots.tsx';
import type { Take } from '../reading/reading-state.ts';
import { useNumbers } from '../settings.ts';
import { comparable } from './comparable.ts';

export interface Compared {
  take: Take;
  label: string;
  reading: Reading | null;
}

/** Less than this is not told apart: a microphone put back by hand never stands quite where it stood, dB. */
export const repeatDb = 1;

/** What the difference of exactly two read takes says; null where there is none. */
export function comparisonSentence(compared: readonly Compared[], style: { decimal: '.' | ',' }): string | null {
  if (compared.length !== 2) return null;
  const [before, after] = compared;
  if (!before.reading || !after.reading) return null;
  const difference = responseDifference(before.reading, after.reading);
  if (!difference) return null;
  return differenceSentence(difference, repeatDb, { style }).replace('The later take', after.label);
}

export function Comparison({ compared, name }: { compared: readonly Compared[]; name: string }) {
  const style = useNumbers();
  const read = compared.flatMap(({ label, reading, take }) => (reading ? [{ label, reading, take }] : []));
  const parts = read.length === 2 ? ['before', 'after'] : [];
  const named = read.map(({ label, reading }, i) => ({ name: parts[i] ? `${label}, ${parts[i]}` : label, reading }));
  const options = {
    style,
    subject: read.map(({ label, take }) => `${label} ${take.name}`).join('; '),
    rangeHz: hearingHz,
  };
  const drawn = overlayPlot(named, options);
  if (!drawn) return <p className="said">Choose takes that carry a response: a sweep, read without a stop.</p>;
  const says = comparisonSentence(compared, style);
  // Of two, the drawing says how they differ, not only which they are.
  const overlay = says === null ? drawn : { ...drawn, sentence: `${named.map((one) => one.name).join('; ')}. ${says}` };
  const difference = named.length === 2 ? differencePlot(named[0], named[1], repeatDb, options) : null;
  const columns = read.map(({ label, reading }) => ({
    name: `${label} levelDb`,
    fHz: reading.response?.fHz ?? [],
    values: reading.response?.levelDb ?? [],
  }));
  const apart = responseDifference(named[0].reading, named[named.length - 1].reading);
  return (
    <>
      {read.length === 2 ? (
        <ul className="same2" aria-label="What they have in common">
          {comparable(read[0].take, read[1].take).common.map(({ severity, text }) => (
            <li key={text} className={severity}>
              <Icon name={severity} />
              {text}
            </li>
          ))}
        </ul>
      ) : null}
      <PlotSection
        title={named.length === 2 ? 'Before and after' : 'Over each other'}
        small="1/12 octave, where it may be relied on"
      >
        <PlotView
          spec={overlay}
          heightPx={190}
          readout={levelReadout(style)}
          tools={<ExportButtons spec={overlay} name={`${name} takes`} csv={() => curvesCsv(columns)} />}
        />
      </PlotSection>
      {difference && apart ? (
        <PlotSection title="The difference" small="after less before">
          <PlotView
            spec={difference}
            heightPx={150}
            readout={levelReadout(style)}
            tools={
              <ExportButtons
                spec={difference}
                name={`${name} difference`}
                csv={() => curvesCsv([{ name: 'differenceDb', fHz: apart.fHz, values: apart.levelDb }])}
              />
            }
          />
        </PlotSection>
      ) : null}
    </>
  );
}
