// The data sheet against itself: what it says, what follows from the rest of it, and which figure to suspect.
import { type NumberStyle, signedText, significantText } from '../../charts/number-words.ts';
import type { SheetMend } from '../../drivers/rebuilt-sheet.ts';
import { sheetWords, withSheet } from '../../job/rules/sheet-of-driver.ts';
import type { PlanChange } from '../../plan/changes.ts';
import type { PartOf } from '../../plan/plan.ts';
import { Icon } from '../parts/Icon.tsx';
import { useNumbers } from '../settings.ts';
import { type SheetCheck, sheetCheck } from './driver-model.ts';

interface SheetPanelProps {
  driver: PartOf<'driver'>;
  onEdit: () => void;
  onChange: (change: PlanChange) => void;
}

/** "Force factor 5.2 T m instead of 7". */
function mendText({ value, given, mended }: SheetMend, style: NumberStyle): string {
  const [name, unit] = sheetWords[value];
  return `${name} ${significantText(mended, 3, style)}${unit === '' ? '' : ` ${unit}`} instead of ${significantText(given, 3, style)}`;
}

function doubted(check: SheetCheck): string {
  const names = check.suspects.map((value) => sheetWords[value][0]);
  if (names.length === 0) return 'More than one figure is wrong: no single one would mend it.';
  if (names.length === 1) return `The ${names[0]} alone would mend it.`;
  return `One of these is wrong, and the sheet cannot tell which: ${names.join(', ')}.`;
}

export function SheetPanel({ driver, onEdit, onChange }: SheetPanelProps) {
  const style = useNumbers();
  const check = sheetCheck(driver);
  const proposal = check?.proposal ?? null;
  const mended = proposal === null ? null : withSheet(driver, proposal.mends);
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
      {check !== null && broken > 0 ? <p className="said">{doubted(check)}</p> : null}
      {proposal === null || mended === null ? null : (
        <div className="mend">
          <p className="said">
            {proposal.how === 'rebuilt' ? 'Kept as an impedance curve shows them: ' : 'The others give '}
            {proposal.how === 'rebuilt' ? 'resonance, resistance and both Qs. From them ' : ''}
            {proposal.mends.map((mend) => mendText(mend, style)).join(', ')}. An impedance sweep outranks this.
          </p>
          <button
            type="button"
            className="btn"
            onClick={() => onChange({ part: 'driver', id: driver.id, value: mended })}
          >
            {proposal.mends.length === 1
              ? `Plan with ${sheetWords[proposal.mends[0].value][0]} ${significantText(proposal.mends[0].mended, 3, style)}`
              : 'Plan with what agrees'}
          </button>
        </div>
      )}
      <button type="button" className="btn" onClick={onEdit}>
        Change the sheet
      </button>
    </section>
  );
}
