// Hiss against its aim, pops, and what these takes cannot say.
import { fixedText } from '../../charts/number-words.ts';
import type { NoiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import { SeverityMark } from '../parts/Severity.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { useNumbers } from '../settings.ts';
import { takeNames } from './hunt-words.ts';

const verdicts = { within: 'ok', above: 'fix', 'cannot say': 'note' } as const;
const verdictWords = { within: 'keeps to the aim', above: 'above the aim', 'cannot say': 'cannot say' };

export function Findings({ hunt: { hiss, pops, cannotSay, reference } }: { hunt: NoiseHunt }) {
  const style = useNumbers();
  const unsaid = cannotSay.filter(({ why }) => why !== hiss?.why);
  return (
    <>
      {hiss ? (
        <section aria-labelledby="hiss">
          <h2 id="hiss" className="h2s">
            Hiss
          </h2>
          <p className="hunt-says">
            <SeverityMark severity={verdicts[hiss.verdict]}>{verdictWords[hiss.verdict]}</SeverityMark>{' '}
            {trueMinus(hiss.why)}
          </p>
        </section>
      ) : null}
      {pops.length > 0 ? (
        <section aria-labelledby="pops">
          <h2 id="pops" className="h2s">
            Pops
          </h2>
          <ul className="tried">
            {pops.map(({ take, atS, levelDb, overNoiseDb, atLeast }) => (
              <li key={`${take} ${atS}`}>
                <span>
                  {takeNames[take].name}, at {fixedText(atS, 2, style)} s
                </span>
                <b>
                  {atLeast ? 'at least ' : ''}
                  {trueMinus(fixedText(levelDb, 1, style))} {reference === 'spl' ? 'dB SPL' : 'dBFS'},{' '}
                  {fixedText(overNoiseDb, 0, style)} dB over
                </b>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      {unsaid.length > 0 ? (
        <section aria-labelledby="unsaid">
          <h2 id="unsaid" className="h2s">
            Cannot be said
          </h2>
          <ul className="hunt-unsaid">
            {unsaid.map(({ what, why }) => (
              <li key={`${what} ${why}`}>
                {what}: {why}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </>
  );
}
