import { useState } from 'react';
import type { PlotSpec } from '../../charts/plot-spec.ts';
import { fileName, saveFile } from '../parts/save-file.ts';
import { plotPng, plotSvg } from './picture.ts';

interface ExportButtonsProps {
  spec: PlotSpec;
  /** What the files are called. */
  name: string;
  /** The numbers behind it as comma-separated values. */
  csv?: (() => string) | undefined;
}

/** A plot as a picture, its numbers as a table. */
export function ExportButtons({ spec, name, csv }: ExportButtonsProps) {
  const [fault, setFault] = useState<string | null>(null);
  const file = fileName(name);
  const png = () =>
    plotPng(spec).then(
      (picture) => saveFile(`${file}.png`, picture),
      (error: Error) => setFault(error.message),
    );
  return (
    <>
      {csv ? (
        <button
          type="button"
          className="linky"
          onClick={() => saveFile(`${file}.csv`, new Blob([csv()], { type: 'text/csv' }))}
        >
          Save as CSV
        </button>
      ) : null}
      <button type="button" className="linky" onClick={() => saveFile(`${file}.svg`, plotSvg(spec))}>
        SVG
      </button>
      <button type="button" className="linky" onClick={png}>
        PNG
      </button>
      {fault ? <span role="alert">{fault}</span> : null}
    </>
  );
}
