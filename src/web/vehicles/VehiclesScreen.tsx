// Every body that has a plan view, drawn large: covers by letter, places by number, and the numbers that it is made from.
import './vehicles.css';
import { type ReactNode, useState } from 'react';
import { fixedText } from '../../charts/number-words.ts';
import { type BodyKind, bodyKinds, type SteeringHand, vehicleBodies } from '../../charts/vehicle/bodies.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { useNewJobDraft } from '../new-job/draft.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { ScrollBox } from '../parts/ScrollBox.tsx';
import { HandSwitch } from '../plan/HandSwitch.tsx';
import { sizeText } from '../plan/size-text.ts';
import { isBodyKind } from '../plan/vehicle-plan.ts';
import { goTo } from '../router.ts';
import { useSettings } from '../settings.ts';
import { Page } from '../shell/Page.tsx';
import { countWords, headOf } from '../shop/job-words.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { BodyDrawn } from './BodyDrawn.tsx';
import { Measures } from './Measures.tsx';

export function VehiclesScreen({ job }: { job: string | null }) {
  return job === null ? <ForNewCard /> : <ForJob job={job} />;
}

function ForJob({ job }: { job: string }) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <OfJob view={value} />;
}

function OfJob({ view }: { view: JobView }) {
  const { job } = view;
  const { wish, error } = useWish(job.id);
  const { bodyType, steering } = job.vehicle;
  const take = async (body: BodyKind, hand: SteeringHand) => {
    const same = body === bodyType && hand === (steering ?? 'right');
    const there = same || (await wish({ command: 'describeVehicle', bodyType: body, steering: hand }));
    if (there) goTo({ page: 'job', job: job.id });
  };
  return (
    <Bodies
      head={headOf(view, job.id)}
      begin={{ body: isBodyKind(bodyType) ? bodyType : null, hand: steering ?? 'right' }}
      whom={`for ${job.number ?? job.name}`}
      back={() => goTo({ page: 'job', job: job.id })}
      take={(body, hand) => void take(body, hand)}
      error={error ? <ErrorCard error={error} /> : null}
    />
  );
}

function ForNewCard() {
  const { who } = useSettings();
  const { draft, change } = useNewJobDraft(who);
  return (
    <Bodies
      head={{
        id: { text: 'Kickpanel' },
        fields: [{ name: 'Drawing sheet', text: 'plan views, nose up', wideOnly: true }],
      }}
      begin={{ body: draft.body === 'other' ? null : draft.body, hand: draft.hand }}
      whom="for a new card"
      back={() => goTo({ page: 'new-job' })}
      take={(body, hand) => {
        change({ body, hand });
        goTo({ page: 'new-job' });
      }}
    />
  );
}

interface BodiesProps {
  head: Parameters<typeof Page>[0]['head'];
  begin: { body: BodyKind | null; hand: SteeringHand };
  whom: string;
  back: () => void;
  take: (body: BodyKind, hand: SteeringHand) => void;
  error?: ReactNode;
}

const numbersOfBody = Object.values(vehicleBodies.estate).filter((value) => typeof value === 'number').length;

const short = (kind: BodyKind) => vehicleBodies[kind].name.split(',')[0].toLowerCase();

function Bodies({ head, begin, whom, back, take, error }: BodiesProps) {
  const settings = useSettings();
  const [hand, setHand] = useState(begin.hand);
  const [body, setBody] = useState(begin.body);
  const size = sizeText(settings);
  return (
    <Page
      name="vehicles"
      title="Vehicle plans"
      head={head}
      says={`${countWords(bodyKinds.length, 'body', 'bodies')}, one drawing: ${countWords(numbersOfBody, 'number', 'numbers').toLowerCase()} and a tail make each of them.`}
      bar={{
        why: body === null ? 'Near enough is good enough: the plan shows where covers and drivers sit.' : undefined,
        seconds: [{ text: 'Back', onPress: back }],
        main: {
          text: body === null ? 'Take a body' : `Take the ${short(body)} ${whom}`,
          small: body === null ? 'opens once one is chosen' : `wheel on the ${hand}`,
          waits: body === null,
          onPress: () => (body === null ? undefined : take(body, hand)),
        },
      }}
    >
      {error}
      <div className="tops">
        <p>Letters are covers, P-numbers are places. Both move when the wheel changes sides.</p>
        <HandSwitch hand={hand} onChange={setHand} />
      </div>
      <div className="bodies-drawn">
        {bodyKinds.map((kind) => (
          <BodyDrawn
            key={`${kind} ${hand}`}
            kind={kind}
            hand={hand}
            taken={kind === body}
            size={size}
            onTake={() => setBody(kind)}
          />
        ))}
      </div>
      <div className="built">
        <Measures body={vehicleBodies[body ?? 'estate']} hand={hand} />
        <section aria-label="How it is built">
          <h2 className="h2s">How it is built</h2>
          <ol>
            <li>
              Everything hangs on the windscreen’s foot: bonnet and rake give the dash, the dash gives the first row.
            </li>
            <li>What follows the last row is the tail: boot, hatch, load, cargo, bed or deck. It fills the rest.</li>
            <li>Square runs from 0 to 1 and shapes nose, shoulders and tail together.</li>
            <li>Letters run down the left side, then down the right. Numbers run front to back, the deepest last.</li>
            <li>Sizes are typical ones, of no vehicle in particular.</li>
          </ol>
        </section>
        <ScrollBox className="numbers" label="The numbers">
          <h2 className="h2s">The numbers, {size.unit}</h2>
          <table>
            <thead>
              <tr>
                <th scope="col">Body</th>
                <th scope="col">Front</th>
                <th scope="col">Bonnet</th>
                <th scope="col">Rake</th>
                <th scope="col">Rows</th>
                <th scope="col">Pitch</th>
                <th scope="col">Doors</th>
                <th scope="col" className="word">
                  Tail
                </th>
                <th scope="col">Square</th>
              </tr>
            </thead>
            <tbody>
              {bodyKinds.map((kind) => {
                const { frontM, bonnetM, rakeM, rows, rowPitchM, doors, tail, boxy, name } = vehicleBodies[kind];
                return (
                  <tr key={kind}>
                    <th scope="row">{name.split(',')[0]}</th>
                    <td>{size.text(frontM)}</td>
                    <td>{size.text(bonnetM)}</td>
                    <td>{size.text(rakeM)}</td>
                    <td>{rows}</td>
                    <td>{rows > 1 ? size.text(rowPitchM) : 'none'}</td>
                    <td>{doors}</td>
                    <td className="word">{tail}</td>
                    <td>{fixedText(boxy, 2, settings)}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </ScrollBox>
      </div>
    </Page>
  );
}
