// `job new NAME`: a job, and what is known of the vehicle.
import type { Command as Wish } from '../../job/commands/commands.ts';
import { bodyTypes } from '../../job/entry-kinds.ts';
import { jobView } from '../../store/job-views.ts';
import { carryOut } from '../../store/write-entries.ts';
import { wordValue } from '../option-values.ts';
import { issuesOutcome, type JobPart, whoOf } from './job-call.ts';
import { jobText } from './job-text.ts';
import { wishFrom } from './wishes.ts';

export const newJob: JobPart = {
  operands: [1, 1],
  usage: 'job new NAME',
  async run({ operands, given, workshop }) {
    const body = given('body') === undefined ? undefined : wordValue('body', given('body') as string, bodyTypes);
    if (body?.ok === false) return issuesOutcome(...body.issues);
    const opening = wishFrom({ command: 'createJob', name: operands[0], number: given('number') }, 'NAME');
    if (!opening.ok) return issuesOutcome(...opening.issues);
    const said = {
      bodyType: body?.value,
      name: given('vehicle'),
      owner: given('owner'),
      plate: given('plate'),
      phone: given('phone'),
    };
    const wishes: Wish[] = [opening.value];
    if (Object.values(said).some((value) => value !== undefined)) {
      const vehicle = wishFrom({ command: 'describeVehicle', ...said }, 'the vehicle');
      if (!vehicle.ok) return issuesOutcome(...vehicle.issues);
      wishes.push(vehicle.value);
    }
    const job = workshop.freshId();
    const who = whoOf(given);
    const requests = wishes.map((wish) => ({ id: workshop.freshId(), who, wish }));
    const written = await carryOut(workshop, job, requests);
    if (!written.ok) return issuesOutcome(...written.issues);
    const view = await jobView(workshop, job);
    if (view === null) throw new Error(`job ${job} must be there after it was written`);
    return { status: 0, answer: view, text: (style) => `${jobText(view, style)}\nIts id is ${job}\n` };
  },
};
