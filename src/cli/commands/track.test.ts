import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { trackSchema } from '../../signals/track.ts';
import { trackAudio } from '../../signals/track-audio.ts';
import { trackKinds } from '../../signals/track-design/request.ts';
import { readCall } from '../arguments.ts';
import type { CommandOutcome } from '../command.ts';
import type { TrackMade } from '../track-summary.ts';
import { command } from './track.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'track-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const inFolder = (name: string) => join(folder, name);

/** The outcome of `kickpanel track WORDS`; `OUT` stands for a file in the fresh folder. */
async function outcome(words: string): Promise<CommandOutcome> {
  const call = readCall(words.replace('OUT', inFolder('take.wav')).split(' '), command);
  if (!call.ok) return { status: 2, issues: call.issues };
  const { operands, given } = call.value;
  return command.run({ operands, given: (option) => given.get(option), onProgress: () => {} });
}

async function made(words: string): Promise<TrackMade> {
  const result = await outcome(words);
  if (result.status === 2) throw new Error(JSON.stringify(result.issues));
  return result.answer as TrackMade;
}

async function refusals(words: string): Promise<string[]> {
  const result = await outcome(words);
  return result.status === 2 ? result.issues.map(({ where, code }) => `${where}: ${code}`) : [];
}

const description = (name = 'take') =>
  trackSchema.parse(JSON.parse(readFileSync(inFolder(`${name}.track.json`), 'utf8')));

describe('the files', () => {
  test('are a 24-bit stereo WAV at 48 kHz and its description beside it, and nothing else', async () => {
    const answer = await made('sweep --out OUT --seconds 1 --side left');
    expect(readdirSync(folder).sort()).toEqual(['take.track.json', 'take.wav']);
    expect(answer).toMatchObject({
      schema: 'kickpanel.track-made/1',
      kind: 'sweep',
      file: inFolder('take.wav'),
      descriptionFile: inFolder('take.track.json'),
      replaced: false,
      rateHz: 48_000,
      bits: '24',
      levelDbfs: -20,
      side: 'left',
      markerSide: 'right',
      code: description().code,
      durationS: description().durationS,
    });
    const wav = readFileSync(inFolder('take.wav'));
    const frames = Math.round(answer.durationS * 48_000);
    expect(wav.length).toBe(44 + frames * 6);
    expect([wav.readUInt16LE(20), wav.readUInt16LE(22), wav.readUInt32LE(24), wav.readUInt16LE(34)]).toEqual([
      1, 2, 48_000, 24,
    ]);
  });

  test('agree: the description rendered anew is the sound in the WAV, within half a step', async () => {
    await made('near --out OUT --seconds 1 --level -6');
    const audio = trackAudio(description());
    const [left, right] = audio.renderBlock(0, audio.frames);
    const wav = readFileSync(inFolder('take.wav'));
    let worst = 0;
    for (let n = 0; n < audio.frames; n++) {
      worst = Math.max(worst, Math.abs(wav.readIntLE(44 + 6 * n, 3) - left[n] * 8_388_607));
      worst = Math.max(worst, Math.abs(wav.readIntLE(47 + 6 * n, 3) - right[n] * 8_388_607));
    }
    expect(worst).toBeLessThanOrEqual(0.5 + 1e-6);
  });

  test('in 16 bits are dithered where sound is, and exact zeros where none is', async () => {
    await made('tone --out OUT --bits 16 --seconds 0.5 --level -60');
    const wav = readFileSync(inFolder('take.wav'));
    const samples = new Int16Array(wav.buffer, wav.byteOffset + 44, (wav.length - 44) / 2);
    expect(samples.subarray(0, 2 * 48_000).every((value) => value === 0)).toBe(true);
    expect(samples.subarray(-2 * 48_000).every((value) => value === 0)).toBe(true);
    const tone = description().segments.find(({ kind }) => kind === 'tone');
    const at = 2 * Math.round((tone?.startS ?? 0) * 48_000 + 4800);
    // Left and right play the same, but their dither is their own.
    const stretch = Array.from(samples.subarray(at, at + 2000));
    expect(stretch.some((value, n) => n % 2 === 0 && value !== stretch[n + 1])).toBe(true);
    // -60 dBFS is 33 steps; the dither adds a step and a half at most.
    expect(Math.max(...stretch.map(Math.abs))).toBeLessThanOrEqual(34);
  });

  test('may be floats, whose header says so', async () => {
    await made('pair --out OUT --bits 32f --rate 96000');
    const wav = readFileSync(inFolder('take.wav'));
    expect([wav.readUInt16LE(20), wav.readUInt32LE(24), wav.readUInt16LE(34)]).toEqual([3, 96_000, 32]);
  });

  test('replace what stood there, and the answer says so', async () => {
    const first = await made('pair --out OUT');
    const second = await made('pair --out OUT --level -30');
    expect([first.replaced, second.replaced]).toEqual([false, true]);
    expect(description().segments[1]).toMatchObject({ levelDbfs: -30 });
    const result = await outcome('pair --out OUT');
    const text = result.status === 2 ? '' : result.text({ width: 80, unicode: false, colour: false });
    expect(text).toContain('What stood there before');
  });

  test('may have a name with any case and with dots', async () => {
    const answer = await made(`pair --out ${inFolder('left.door.WAV')}`);
    expect(answer.descriptionFile).toBe(inFolder('left.door.track.json'));
  });
});

describe('when it cannot write', () => {
  test('into a folder that is not there, it says so and how to mend it', async () => {
    const result = await outcome(`pair --out ${inFolder('no/take.wav')}`);
    expect(result).toMatchObject({
      status: 2,
      issues: [{ code: 'folder-not-found', where: inFolder('no/take.wav'), mend: expect.stringMatching(/folder/) }],
    });
  });

  test('over a folder, it leaves everything as it was', async () => {
    mkdirSync(inFolder('take.track.json'));
    writeFileSync(inFolder('take.wav'), 'older');
    expect(await refusals('pair --out OUT')).toEqual([`${inFolder('take.track.json')}: not-a-file`]);
    expect(readFileSync(inFolder('take.wav'), 'utf8')).toBe('older');
    expect(readdirSync(folder).sort()).toEqual(['take.track.json', 'take.wav']);
  });
});

describe('the options', () => {
  test('levels may be a range with a step, which ends where it must not pass, or a list', async () => {
    const levels = async (text: string) => {
      await made(`steps --out OUT --seconds 0.2 --from 500 --levels ${text}`);
      const found = description().segments.filter(({ kind }) => kind === 'sweep');
      return found.map((segment) => (segment as unknown as { levelDbfs: number }).levelDbfs).slice(0, -1);
    };
    expect(await levels('-30:-6:3')).toEqual([-30, -27, -24, -21, -18, -15, -12, -9, -6]);
    expect(await levels('-30:-7:3')).toEqual([-30, -27, -24, -21, -18, -15, -12, -9]);
    expect(await levels('-30.3:-29.7:0.1')).toEqual([-30.3, -30.2, -30.1, -30, -29.9, -29.8, -29.7]);
    expect(await levels('-36,-30,-24')).toEqual([-36, -30, -24]);
  });

  test('reach the track', async () => {
    const words = 'sweep --out OUT --from 100 --to 4000 --seconds 1 --level -12 --side right --marker-side both';
    const answer = await made(`${words} --repeat 2 --rate 44100 --code 17 --marker-band 500-3000`);
    expect(answer).toMatchObject({ rateHz: 44_100, levelDbfs: -12, side: 'right', markerSide: 'both', code: 17 });
    const { segments } = description();
    expect(segments.filter(({ kind }) => kind === 'sweep')).toMatchObject([
      { side: 'right', fromHz: 100, toHz: 4000, levelDbfs: -12 },
      { side: 'right' },
    ]);
    expect(segments[1]).toMatchObject({ kind: 'marker', fromHz: 500, toHz: 3000 });
    await made('noise --out OUT --seconds 0.5 --relation opposite --seed 99');
    expect(description().segments).toContainEqual(expect.objectContaining({ relation: 'opposite', seed: 99 }));
    await made('tone --out OUT --seconds 0.5 --tones 50,1000');
    const tones = description().segments.filter(({ kind }) => kind === 'tone');
    expect(tones).toMatchObject([{ askedHz: 50 }, { askedHz: 1000 }]);
  });

  test.each([
    ['--out OUT', ['KIND: kind-missing']],
    ['swep --out OUT', ['swep: unknown-kind']],
    ['sweep noise --out OUT', ['noise: too-many-arguments']],
    ['sweep', ['--out: out-missing']],
    ['sweep --out take.mp3', ['--out: not-a-wav-name']],
    ['sweep --out .wav', ['--out: not-a-wav-name']],
    ['sweep --out OUT --levl=-20', ['--levl: unknown-option']],
    ['sweep --out OUT --level loud', ['--level: bad-option-value']],
    ['sweep --out OUT --level 3', ['--level: bad-option-value']],
    ['sweep --out OUT --level 0', ['--level: level-over-ceiling']],
    ['sweep --out OUT --seconds 0', ['--seconds: bad-option-value']],
    ['sweep --out OUT --repeat 0', ['--repeat: bad-option-value']],
    ['sweep --out OUT --bits 20', ['--bits: bad-option-value']],
    ['sweep --out OUT --rate 47000', ['--rate: bad-option-value']],
    ['sweep --out OUT --from 9000 --to 300', ['--to: band-reversed']],
    ['sweep --out OUT --to 22000', ['--to: above-the-rate']],
    ['sweep --out OUT --tones 50', ['--tones: not-for-this-kind']],
    ['steps --out OUT --levels -6:-30:3', ['--levels: bad-option-value']],
    ['steps --out OUT --levels -30:-6', ['--levels: bad-option-value']],
    ['steps --out OUT --levels -30:-6:0', ['--levels: bad-option-value']],
    ['steps --out OUT --levels -30,-36', ['--levels: levels-not-rising']],
    ['tone --out OUT --tones 50,,60', ['--tones: bad-option-value']],
    ['near --out OUT --side left', ['--side: needs-both-sides']],
    ['sweep --out OUT --marker-band 500', ['--marker-band: bad-option-value']],
    ['sweep --out OUT --marker-band 3000-500', ['--marker-band: marker-band']],
    ['sweep --out OUT --repeat 1000', ['--seconds: track-too-long']],
  ])('refuse "%s" and write nothing', async (words, issues) => {
    expect(await refusals(words)).toEqual(issues);
    expect(readdirSync(folder)).toEqual([]);
  });

  test('all wrong at once are all named', async () => {
    const words = 'sweep --side up --level loud --repeat 0';
    expect(await refusals(words)).toEqual([
      '--out: out-missing',
      '--level: bad-option-value',
      '--side: bad-option-value',
      '--repeat: bad-option-value',
    ]);
  });
});

describe('what a person reads', () => {
  test('says of every kind what plays, how long and how loud, what to mind and what comes next', async () => {
    for (const kind of trackKinds) {
      const result = await outcome(
        `${kind} --out OUT --seconds 0.3 --level -30${kind === 'bursts' ? ' --outputs 2' : ''}`,
      );
      const text = result.status === 2 ? '' : result.text({ width: 80, unicode: false, colour: false });
      expect(text).toContain('take.track.json');
      expect(text).toMatch(/Plays {2,}\S/);
      expect(text).toMatch(/Length +\d/);
      expect(text).toMatch(/Peak +-30 dBFS/);
      expect(text).toMatch(/Turn the volume right down/);
      expect(text).toMatch(/Next: /);
      for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(Math.max(80, folder.length + 20));
    }
  });

  test('warns of what the track can harm', async () => {
    const cautions = async (words: string) => (await made(`${words} --out OUT`)).cautions.map(({ code }) => code);
    expect(await cautions('sweep --from 30 --seconds 0.5')).toContain('tweeter-protection');
    expect(await cautions('sweep --from 2000 --seconds 0.5')).not.toContain('tweeter-protection');
    expect(await cautions('sweep --from 2000 --seconds 5 --level -10')).toContain('tweeter-heat');
    expect(await cautions('steps --seconds 0.3 --level -30')).toContain('ears');
    expect(await cautions('tone --seconds 0.5 --level -10')).toContain('unplug-drivers');
    expect(await cautions('tone --seconds 0.5 --level -20')).not.toContain('unplug-drivers');
    expect(await cautions('near --seconds 0.5')).toContain('close-microphone');
    expect(await cautions('sweep --seconds 0.5 --marker-side none')).toContain('no-markers');
    expect(await cautions('sweep --seconds 31')).toContain('long-stimulus');
    expect(await cautions('bursts --outputs 1 --level -20')).toContain('leads-unproven');
  });
});
