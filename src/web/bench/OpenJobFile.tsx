// Takes in a job from its file: from another device or the archive.
import { type ChangeEvent, useState } from 'react';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { goTo } from '../router.ts';
import { refresh } from '../shop/known-answers.ts';
import { useShop } from '../shop/shop-context.ts';
import { type ShopError, shopErrorFrom } from '../shop/shop-error.ts';

/** The file input that buttons elsewhere press, and what came of it. */
export function OpenJobFile() {
  const { api } = useShop();
  const [error, setError] = useState<ShopError | null>(null);
  const [reading, setReading] = useState<string | null>(null);
  const open = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const [file] = target.files ?? [];
    if (!file) return;
    setReading(file.name);
    setError(null);
    try {
      const { job } = await api.importJob(file);
      refresh('jobs');
      goTo({ page: 'job', job });
    } catch (failed) {
      setError(shopErrorFrom(failed));
    } finally {
      setReading(null);
      target.value = '';
    }
  };
  return (
    <>
      <input
        id="job-file"
        className="unseen"
        type="file"
        accept=".zip,application/zip"
        aria-label="Job file"
        tabIndex={-1}
        onChange={open}
      />
      {reading ? (
        <p className="said" role="status">
          Proving {reading} whole and taking it in.
        </p>
      ) : null}
      {error ? <ErrorCard error={error} safe="Nothing of the file was taken in." /> : null}
    </>
  );
}
