// What every screen has: the card's head, the stages, one sentence, the work, and the edge of the bench.
import { type ReactNode, useEffect, useRef } from 'react';
import { Contradictions } from '../keep/Contradictions.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { Bar, type BarProps } from './Bar.tsx';
import { CardHead, type HeadProps } from './CardHead.tsx';
import { StageStrip } from './StageStrip.tsx';

interface PageProps {
  /** A class for the screen's own style. */
  name: string;
  /** Of the window. */
  title: string;
  head: HeadProps;
  /** The job whose stages the strip leads to. */
  job?: string;
  stage?: number | undefined;
  stageBig?: boolean;
  /** A recording runs: nothing on the strip leads away from it. */
  held?: boolean;
  /** The sentence that carries the result or the next act. */
  says: string;
  more?: ReactNode;
  /** The screen lays its sentence out itself. */
  ownHeading?: boolean;
  bar?: BarProps;
  children: ReactNode;
}

export function Page({
  name,
  title,
  head,
  job,
  stage,
  stageBig,
  held = false,
  says,
  more,
  ownHeading,
  bar,
  children,
}: PageProps) {
  useEffect(() => {
    document.title = `${title} \u00b7 Kickpanel`;
  }, [title]);
  return (
    <>
      <a className="skip" href="#work">
        To the work
      </a>
      <CardHead {...head} />
      {stage === undefined ? null : <StageStrip job={job ?? null} now={stage} big={stageBig ?? false} held={held} />}
      <main id="work" className={name}>
        {ownHeading ? null : (
          <div className="say">
            <Heading>{trueMinus(says)}</Heading>
            {more ? <p>{more}</p> : null}
          </div>
        )}
        {job === undefined || held ? null : <Contradictions job={job} />}
        {children}
      </main>
      {bar ? <Bar {...bar} /> : null}
    </>
  );
}

/** The sentence of a screen. It takes the focus when the screen opens, so that it is read out first. */
export function Heading({ children }: { children: ReactNode }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
  }, []);
  return (
    <h1 ref={heading} tabIndex={-1}>
      {children}
    </h1>
  );
}
