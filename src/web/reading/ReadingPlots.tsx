// The curves of a reading under each other, each with its sentence, its values and its files.
import type { ReactNode } from 'react';
import type { PlotSpec } from '../../charts/plot-spec.ts';
import { bandsPlot } from '../../charts/reading/bands-plot.ts';
import { distortionPlot } from '../../charts/reading/distortion-plot.ts';
import { impulsePlot } from '../../charts/reading/impulse-plot.ts';
import { phasePlot } from '../../charts/reading/phase-plot.ts';
import { hearingHz } from '../../charts/reading/plot-options.ts';
import { responsePlot } from '../../charts/reading/response-plot.ts';
import type { ImpulseResponse, Reading } from '../../measurement/reading.ts';
import { PlotView } from '../plot/PlotView.tsx';
import { impulseReadout, levelReadout, percentReadout, phaseReadout, type Readout } from '../plot/readout.ts';
import { useNumbers } from '../settings.ts';
import { curvesCsv, distortionColumns, impulseCsv, responseColumns } from './csv.ts';
import { ExportButtons } from './ExportButtons.tsx';

interface ReadingPlotsProps {
  reading: Reading;
  impulse: ImpulseResponse | null;
  /** What played and where. */
  subject: string;
  /** Of the files. */
  name: string;
}

interface Shown {
  title: string;
  small: string;
  spec: PlotSpec | null;
  heightPx: number;
  readout: Readout;
  csv?: () => string;
}

export function ReadingPlots({ reading, impulse, subject, name }: ReadingPlotsProps) {
  const style = useNumbers();
  const options = { style, subject, rangeHz: hearingHz };
  const unit = reading.reference === 'spl' ? 'dB SPL' : 'dB';
  const shown: Shown[] = [
    {
      title: 'Response',
      small: `${reading.reference === 'spl' ? 'sound pressure level' : 'recorded over played, not calibrated'}; tinted: not to be relied on`,
      spec: responsePlot(reading, options),
      heightPx: 268,
      readout: levelReadout(style, unit),
      csv: () => curvesCsv([...responseColumns(reading), ...distortionColumns(reading)]),
    },
    {
      title: 'Distortion',
      small: 'relative to the sound itself, above what noise alone would read',
      spec: distortionPlot(reading, options),
      heightPx: 190,
      readout: percentReadout(style),
      csv: () => curvesCsv(distortionColumns(reading)),
    },
    {
      title: 'Phase',
      small: "the driver's own arrival removed",
      spec: phasePlot(reading, options),
      heightPx: 190,
      readout: phaseReadout(style),
      csv: () => curvesCsv(responseColumns(reading).filter(({ name: column }) => /^(phaseDeg|valid)$/.test(column))),
    },
    {
      title: 'Impulse',
      small: 'around the direct sound',
      spec: impulse ? impulsePlot(impulse, options) : null,
      heightPx: 190,
      readout: impulseReadout(style),
      ...(impulse ? { csv: () => impulseCsv(impulse) } : {}),
    },
    {
      title: 'Bands',
      small: 'third octaves',
      spec: bandsPlot(reading, options),
      heightPx: 210,
      readout: levelReadout(style, unit),
      csv: () =>
        curvesCsv(reading.bands ? [{ name: 'levelDb', fHz: reading.bands.fHz, values: reading.bands.levelDb }] : []),
    },
  ];
  return shown.map(({ title, small, spec, heightPx, readout, csv }) =>
    spec === null ? null : (
      <PlotSection key={title} title={title} small={small}>
        <PlotView
          spec={spec}
          heightPx={heightPx}
          readout={readout}
          tools={<ExportButtons spec={spec} name={`${name} ${title}`} csv={csv} />}
        />
      </PlotSection>
    ),
  );
}

export function PlotSection({ title, small, children }: { title: string; small: string; children: ReactNode }) {
  return (
    <section className="plot-section" aria-label={title}>
      <h2>
        {title} <small>{small}</small>
      </h2>
      {children}
    </section>
  );
}
