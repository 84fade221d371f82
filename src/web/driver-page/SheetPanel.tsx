// The data sheet against itself: what it says, what follows from the rest of it, and which figure to suspect.
import { signedText, significantText } from '../../charts/number-words.ts';
import type { PartOf } from '../../plan/plan.ts';
import { fieldForms } from '../part-editor/field-forms.ts';
import { Icon } from '../parts/Icon.tsx';
import { useNumbers } from '../settings.ts';
import { sheetCheck } from './driver-model.ts';

const levelField = 'spl1w1mDb';

/** A field of the sheet as the form of a driver names it. */
function fieldWords(field: string): string {
  if (field === levelField) return 'Sensitivity';
  return fieldForms.driver[field]?.label ?? field;
}

export function SheetPanel({ driver, onEdit }: { driver: PartOf<'driver'>; onEdit: () => void }) {
  const style = useNumbers();
  const check = sheetCheck(driver);
  const broken = check?.rows.filter((row) => row.broken).length ?? 0;
  return (
    <section aria-labelledby="sheet">
      <h2 id="sheet">
        The data sheet against itself{' '}
        <small>
          {check === null
            ? 'too little of it is known'
            : broken === 0
              ? `${check.rows.length} of 5 relations known, none broken`
              : `${broken} of ${check.rows.length} relations broken`}
        </small>
      </h2>
      {check === null ? (
        <p className="said">
          Give two figures that hang together, such as both Qs and their sum, or Fs, moving mass and compliance: then
          one that is wrong shows.
        </p>
      ) : (
        <ul className="sheet">
          {check.rows.map(({ given, name, says, follows, unit, off, broken: bad }) => (
            <li key={given} className={bad ? 'bad' : ''}>
              <Icon name={bad ? 'fix' : 'ok'} />
              <span>
                {name}
                <span className="unseen">{bad ? ': broken' : ': holds'}</span>
              </span>
              <span className="num">
                {bad ? <s>{significantText(says, 3, style)}</s> : significantText(says, 3, style)}
              </span>
              <b className="num">
                {significantText(follows, 3, style)} {unit}
              </b>
              <small>
                {signedText(off, 1, style)} {given === 'Sens' ? 'dB' : '%'}
              </small>
            </li>
          ))}
        </ul>
      )}
      {check !== null && broken > 0 ? (
        <p className="said">
          {check.suspects.length === 0
            ? 'More than one figure is wrong. Measure the driver: an impedance sweep outranks any sheet.'
            : check.suspects.length === 1
              ? `${fieldWords(check.suspects[0])} alone would mend it.`
              : `One of these is wrong, and the sheet cannot tell which: ${check.suspects.map(fieldWords).join(', ')}.`}
        </p>
      ) : null}
      <button type="button" className="btn" onClick={onEdit}>
        Change the sheet
      </button>
    </section>
  );
}
