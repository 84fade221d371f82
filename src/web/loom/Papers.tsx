// What goes on paper: a label for each end of each lead, the lead list for the clipboard, the fuse chart.
import { useState } from 'react';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Switch } from '../parts/Switch.tsx';
import { fileName, saveFile } from '../parts/save-file.ts';
import { useShop } from '../shop/shop-context.ts';
import { type ShopError, shopErrorFrom } from '../shop/shop-error.ts';

type Paper = 'labels' | 'leads' | 'fuses';
type Format = 'pdf' | 'svg';

const papers: { paper: Paper; name: string; small: string }[] = [
  { paper: 'labels', name: 'Lead labels', small: 'one for each end, its code opens the lead' },
  { paper: 'leads', name: 'Lead list', small: 'for the clipboard, with a place for each reading' },
  { paper: 'fuses', name: 'Fuse chart', small: 'load, fuse and cable of each run' },
];

interface PapersProps {
  job: string;
  /** What the job goes by, for the names of the files. */
  called: string;
  leads: number;
  runs: number;
}

export function Papers({ job, called, leads, runs }: PapersProps) {
  const { api } = useShop();
  const [stock, setStock] = useState<'sheet' | 'roll'>('sheet');
  const [error, setError] = useState<ShopError | null>(null);
  const [busy, setBusy] = useState<string | null>(null);
  const save = async (paper: Paper, format: Format) => {
    setBusy(`${paper} ${format}`);
    setError(null);
    try {
      const sheets = await api.paper(job, paper, { format, stock, address: location.origin });
      sheets.forEach((sheet, n) => {
        const number = n === 0 ? '' : `-${n + 1}`;
        saveFile(`${fileName(`${called} ${paper}`)}${number}.${format}`, sheet);
      });
    } catch (failed) {
      setError(shopErrorFrom(failed));
    } finally {
      setBusy(null);
    }
  };
  const there = papers.filter(({ paper }) => (paper === 'fuses' ? runs : leads) > 0);
  if (there.length === 0) return null;
  return (
    <section aria-labelledby="papers">
      <h2 id="papers">On paper</h2>
      {error ? <ErrorCard error={error} /> : null}
      <ul className="papers">
        {there.map(({ paper, name, small }) => (
          <li key={paper}>
            <p>
              <b>{name}</b>
              <small>{small}</small>
            </p>
            {paper === 'labels' ? (
              <Switch
                label="Stock of the labels"
                value={stock}
                onChange={setStock}
                options={[
                  { value: 'sheet', label: 'A4 sheets' },
                  { value: 'roll', label: 'Roll' },
                ]}
              />
            ) : null}
            {(['pdf', 'svg'] as const).map((format) => (
              <button
                key={format}
                type="button"
                className="btn"
                disabled={busy !== null}
                onClick={() => void save(paper, format)}
              >
                {format.toUpperCase()}
                <span className="unseen"> of the {name.toLowerCase()}</span>
              </button>
            ))}
          </li>
        ))}
      </ul>
      <p className="quiet">Print at 100 %: what is drawn is true to size.</p>
    </section>
  );
}
