// `job`: everything the app does to a job, for scripts and for those who like to type.
import type { Command } from '../command.ts';
import type { JobPart } from '../jobs/job-call.ts';
import { nearestWord } from '../nearest-word.ts';

/** Each part is loaded when it is called: help is there at once. */
const parts: Record<string, () => Promise<JobPart>> = {
  new: async () => (await import('../jobs/new-job.ts')).newJob,
  list: async () => (await import('../jobs/list-and-show.ts')).listJobs,
  show: async () => (await import('../jobs/list-and-show.ts')).showJob,
  append: async () => (await import('../jobs/append.ts')).appendToJob,
  export: async () => (await import('../jobs/archives.ts')).exportJob,
  import: async () => (await import('../jobs/archives.ts')).importJob,
  verify: async () => (await import('../jobs/archives.ts')).verify,
  plan: async () => (await import('../jobs/plan.ts')).plan,
  leads: async () => (await import('../jobs/leads.ts')).leads,
  labels: async () => (await import('../jobs/labels.ts')).labels,
  fuses: async () => (await import('../jobs/fuses.ts')).fuses,
  'hold-points': async () => (await import('../jobs/hold-points.ts')).holdPoints,
  cover: async () => (await import('../jobs/cover.ts')).cover,
  evidence: async () => (await import('../jobs/evidence.ts')).evidence,
  'check-in': async () => (await import('../jobs/check-in.ts')).checkIn,
  attach: async () => (await import('../jobs/attach.ts')).attach,
  gains: async () => (await import('../jobs/gains.ts')).gains,
  settings: async () => (await import('../jobs/settings.ts')).settings,
};

export const command: Command = {
  name: 'job',
  summary:
    'jobs: new, list, show, append, plan, leads, labels, fuses, hold-points, cover, evidence, attach, check-in, gains, settings, export, import, verify',
  usage:
    'job new NAME | list | show JOB | append JOB [WISHES.json|-] | plan check JOB | leads JOB | labels JOB | fuses JOB | hold-points JOB | cover JOB COVER STATE | evidence JOB HOLDPOINT | attach JOB PHOTO.jpg | check-in JOB [CHECK] | gains JOB | settings JOB | export JOB | import F.zip | verify JOB|F.zip',
  details:
    'JOB is the id, the number, or the start of the id. append takes a wish such as {"command":"addNote","text":"..."}, a list of them, {"requests":[...]} with ids of your own, or {"entries":[...]} that another device wrote; or a take by --recording and --track. Sending the same id again changes nothing. plan check JOB (or --plan F.json, without a job) ends with status 1 while a stop finding stands; plan show JOB; plan set JOB PART ID VALUE, or --plan F.json for all of it; plan remove JOB PART ID; plan accept JOB FINDING PLACE WHY for what is no stop; plan template JOB NAME, without both the list; plan parts, or plan parts F.csv to read driver sheets. leads JOB lists every lead as a person walks the car: both ends, colour, size, what a meter should read and what it read. labels JOB --out F.pdf (or .svg) prints two labels for each lead, one for each end, at true size, with a code that opens the lead in the app. fuses JOB is the fuse chart: each fuse, the cable behind it and what flows there. leads and fuses are printed by --out. hold-points JOB lists what the plan says must be proven, what is, what a change has opened again, which covers hide it, and the fewest tests that clear the rest; --open leaves out what is closed, --cover looks behind one cover. cover JOB COVER off|resting|fastened says how a cover is; fastening one over unproven points ends with status 1 and the list, unless --by and --why stand for it. evidence JOB HOLDPOINT gives what proves a point: --measured with --unit, --take, --photo where a picture can show it, or --seen with --by; several points may follow each other; status 1 says that a point is open all the same. attach JOB PHOTO.jpg keeps JPEG or PNG files as they are, with all that the camera wrote into them; they stay with the job for good, so leave plates and faces out of them. check-in JOB lists what is looked over when a car comes and again at Refit, with how each is tried, both answers and what became of it; check-in JOB CHECK --at arrive|refit records one: --measured with --unit (and --after minutes), --result, --photo, --take, or --words alone for the complaint, which is kept so that it can be erased; CHECK mark is the next mark; with --at refit status 1 says that something is worse than it came. gains JOB is the gain sheet: clean volts of the source, tone and target volts of each amplifier channel, what was read, where each gain stands for least noise, and the hiss at the seat. settings JOB is the setting sheet: every setting of each processor output to begin with and as planned, in the steps that the processor has; --csv writes it as a table to fill in, --read-back holds what the processor shows against it and ends with status 1 where it differs. verify ends with status 1 if anything is not as it was written, and names the first altered entry.',
  options: [
    {
      name: 'data',
      value: 'DIR',
      meaning: 'the folder that holds the jobs',
      default: 'KICKPANEL_DATA, else Kickpanel in your home',
    },
    { name: 'who', value: 'NAME', meaning: 'who does it', default: 'KICKPANEL_WHO, else your account' },
    { name: 'number', value: 'TEXT', meaning: "new: the shop's own number" },
    {
      name: 'body',
      value: 'WORD',
      meaning: 'new: coupe, hatchback, sedan, estate, pickup, van, roadster, wagon, other',
    },
    { name: 'vehicle', value: 'TEXT', meaning: 'new: make, model, year; nothing personal' },
    { name: 'owner', value: 'TEXT', meaning: 'new: whose it is; kept so that it can be erased' },
    { name: 'plate', value: 'TEXT', meaning: 'new: the plate; kept so that it can be erased' },
    { name: 'phone', value: 'TEXT', meaning: 'new: telephone number; kept so that it can be erased' },
    { name: 'recording', value: 'REC.wav', meaning: 'append: a take; with --track' },
    { name: 'track', value: 'F.track.json', meaning: 'append: the description of the track that was playing' },
    {
      name: 'name',
      value: 'TEXT',
      meaning: 'append: what the take is called; attach: what the photo shows',
      default: 'the name of the file',
    },
    { name: 'place', value: 'TEXT', meaning: 'append: which driver, or where the microphone stood' },
    { name: 'side', value: 'SIDE', meaning: 'append: left, right or both' },
    { name: 'microphone', value: 'ID', meaning: 'append: the microphone' },
    { name: 'entries', meaning: 'show: with --json, the journal too' },
    {
      name: 'out',
      value: 'FILE',
      meaning: 'export: the archive to write; labels, leads, fuses: a PDF, or SVG',
      default: 'export: job-NUMBER.zip',
    },
    { name: 'without-personal', meaning: 'export: leave owner, plate and telephone number out' },
    {
      name: 'plan',
      value: 'F.json',
      meaning:
        'plan check, plan set, leads, labels, fuses, hold-points, gains, settings: a plan in a file (kickpanel.plan/1)',
    },
    { name: 'csv', value: 'OUT.csv', meaning: 'leads, settings: the list as a table' },
    { name: 'read-back', value: 'F.csv', meaning: 'settings: the table with what the processor shows filled in' },
    { name: 'against', value: 'SIDE', meaning: 'settings: start or planned', default: 'planned' },
    { name: 'stock', value: 'KIND', meaning: 'labels: sheet (A4, a grid) or roll', default: 'sheet' },
    { name: 'width', value: 'MM', meaning: 'labels: width of one label', default: '24' },
    { name: 'height', value: 'MM', meaning: 'labels: height of one label', default: '12' },
    { name: 'gap', value: 'MM', meaning: 'labels: between labels', default: '2' },
    { name: 'margin', value: 'MM', meaning: 'labels: around the labels of a sheet', default: '10' },
    {
      name: 'address',
      value: 'URL',
      meaning: 'labels: where the app answers, for the code on each label',
      default: 'http://localhost:4870',
    },
    { name: 'replace', meaning: 'plan template: take out what the plan has' },
    { name: 'open', meaning: 'hold-points: only those that nothing proves' },
    { name: 'cover', value: 'ID', meaning: 'hold-points: only those behind this cover, by its id or letter' },
    {
      name: 'by',
      value: 'NAME',
      meaning:
        'cover: who answers for fastening it; evidence: who saw it; settings: who read them back after a power cycle',
    },
    { name: 'why', value: 'TEXT', meaning: 'cover: why it is fastened all the same; evidence: a word on it' },
    { name: 'found', meaning: 'cover: it was found so, nobody fastened it' },
    { name: 'measured', value: 'VALUE', meaning: 'evidence, check-in: what a meter read, or "open"; with --unit' },
    { name: 'unit', value: 'UNIT', meaning: 'evidence: V, mV, A, ohm, mOhm, kOhm, MOhm; check-in: V, mV, A, mA' },
    { name: 'take', value: 'ID', meaning: 'evidence, check-in: a take of the job that shows it' },
    {
      name: 'photo',
      value: 'FILE',
      meaning: 'evidence, check-in: a photo that shows it, or the hash or name of one of the job',
    },
    { name: 'seen', meaning: 'evidence: seen and found right, by --by' },
    { name: 'at', value: 'STAGE', meaning: 'check-in: arrive (as it came) or refit (with the covers back)' },
    { name: 'result', value: 'WORD', meaning: 'check-in: ok, fault, not-tried or not-fitted' },
    { name: 'after', value: 'MIN', meaning: 'check-in: minutes since the car was locked or its engine stopped' },
    { name: 'words', value: 'TEXT', meaning: 'check-in: a word on it, or what the owner says is wrong' },
    { name: 'without', value: 'IDS', meaning: 'evidence: drivers that were unplugged for the reading' },
    { name: 'probes', value: 'OHM', meaning: 'evidence: what the meter shows with its probes together' },
    { name: 'temperature', value: 'C', meaning: 'evidence: of the coils', default: '20' },
    { name: 'tone', value: 'DBFS', meaning: 'gains, evidence: level of the test tone', default: '-20' },
    { name: 'meter', value: 'HZ', meaning: 'gains, evidence: up to where the meter is honest', default: '1000' },
    { name: 'hash', value: 'HASH', meaning: 'verify: a hash that was kept; the journal must have ended with it once' },
  ],
  example:
    'kickpanel job new "Four door speakers" --number 0412 --body van\nkickpanel job append 0412 --recording door.wav --track door.track.json\nkickpanel job hold-points 0412 --open\nkickpanel job evidence 0412 "lead L11 connected" --seen --by Ann\nkickpanel job cover 0412 B fastened\nkickpanel job gains 0412\nkickpanel job settings 0412 --csv settings.csv\nkickpanel job verify 0412',
  async run(context) {
    const [name, ...operands] = context.operands;
    const found = Object.hasOwn(parts, name ?? '') ? parts[name] : undefined;
    const part = await found?.();
    if (part === undefined) {
      const near = name === undefined ? null : nearestWord(name, Object.keys(parts));
      const all = `The parts: ${Object.keys(parts).join(', ')}.`;
      const message = name === undefined ? 'What is to be done with jobs?' : `job has no part "${name}".`;
      const mend = near === null ? all : `Did you mean job ${near}? ${all}`;
      return { status: 2, issues: [{ code: 'unknown-part', message, where: name ?? 'job', mend }] };
    }
    const fromFile = context.given('plan') !== undefined;
    if (fromFile && operands.length === 0 && part.withoutJob !== undefined) return part.withoutJob(context);
    const [least, most] = part.operands;
    if (operands.length < least || operands.length > most) {
      const few = operands.length < least;
      const message = few ? `job ${name} needs more.` : `job ${name} takes no "${operands[most]}".`;
      const code = few ? 'argument-missing' : 'too-many-arguments';
      const mend = `Call it as: kickpanel ${part.usage}`;
      return { status: 2, issues: [{ code, message, where: name ?? 'job', mend }] };
    }
    if (name === 'plan' && operands.length === 1 && operands[0] === 'check' && fromFile) {
      return (await import('../jobs/plan.ts')).checkPlanFile(context);
    }
    const { runJobPart } = await import('../jobs/job-call.ts');
    return runJobPart(part, { ...context, operands });
  },
};
