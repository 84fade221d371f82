// What a reading says to a person: first what the recording is worth, then what the car did, then what cannot be said.
import type { Problem } from '../measurement/problems.ts';
import type { Distortion, PassBand, Polarity, Quality, Reading, StimulusReading } from '../measurement/reading.ts';
import { hzText, percentText, significant, signs, uncertainText } from './number-text.ts';
import type { TextStyle } from './output.ts';
import { textPlot } from './text-plot.ts';
import { wrapped } from './wrap.ts';

type Row = [label: string, text: string];

/** A space at which no line breaks; it is shown as any other. */
const firm = '\u00a0';

const severityWords = { stop: 'Stop', limit: 'Limit', note: 'Note' };

function rowsText(rows: Row[], style: TextStyle): string[] {
  const left = Math.max(0, ...rows.map(([label]) => label.length)) + 2;
  return rows.flatMap(([label, text]) =>
    wrapped(text, style.width - left).map(
      (line, index) => (index === 0 ? label : '').padEnd(left) + line.replaceAll(firm, ' '),
    ),
  );
}

function section(title: string, lines: string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines];
}

/** A problem with its place and remedy; what the verdict has said already, and what stands under "What to do now", is not repeated. */
function problemLines(problem: Problem, quality: Quality, style: TextStyle): string[] {
  const at = problem.atS === undefined ? '' : ` at ${problem.atS.toFixed(2)} s`;
  const said = quality.verdict.toLowerCase().includes(problem.message.toLowerCase());
  const what = `  ${severityWords[problem.severity]}: ${said ? 'as said above' : problem.message} (${problem.code}${at})`;
  const mendBelow = !quality.usable && problem.severity === 'stop';
  return [...wrapped(what, style.width, 6), ...(mendBelow ? [] : wrapped(`      ${problem.mend}`, style.width, 6))];
}

const fieldWords: Record<string, string> = {
  arrivalS: 'arrival',
  leftMinusRightS: 'left minus right',
  band: 'where it plays from',
  bands: 'third-octave levels',
  driftPpm: 'clock drift',
};

/** What is not said, those with one reason together; a problem that is listed already is named by its code. */
function withheldLines({ withheld, quality }: Reading, style: TextStyle): string[] {
  const byReason = new Map<string, string[]>();
  for (const { field, message } of withheld) {
    const problem = quality.problems.find((listed) => listed.message === message);
    const reason = problem === undefined ? message : `because of ${problem.code}`;
    byReason.set(reason, [...(byReason.get(reason) ?? []), fieldWords[field] ?? field]);
  }
  return [...byReason].flatMap(([reason, fields]) => wrapped(`  ${fields.join(', ')}: ${reason}`, style.width, 4));
}

/** The direction in words; the file's own sign counts, so a reversal that was meant shows as one. */
export function polarityText(polarity: Polarity): string {
  const confidence = `confidence ${Math.round(100 * polarity.confidence)} %`;
  if (polarity.sign === 0) return `not sure, because ${lowerFirst(polarity.reason)}`;
  const words = polarity.sign === 1 ? 'pushes when the track pushes' : 'pulls when the track pushes: reversed';
  return `${words} (${confidence}; ${lowerFirst(polarity.reason)})`;
}

function lowerFirst(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

function edgeText(fHz: number | null, slope: number | null, open: string): string {
  if (fHz === null) return open;
  return slope === null ? hzText(fHz) : `${hzText(fHz)} (${significant(slope, 2)} dB per octave)`;
}

/** Where the driver's band begins and ends, each with how fast it falls beyond. */
export function bandText(band: PassBand): string {
  const low = edgeText(band.lowHz, band.lowSlopeDbPerOctave, 'below what was played');
  return `${low} to ${edgeText(band.highHz, band.highSlopeDbPerOctave, 'above what was played')}`;
}

/** A bound above this, %, says nothing that anybody could act on. */
const boundMostPct = 30;
const distortionAtHz = [31.5, 63, 125, 250, 500, 1000, 2000, 4000];

/** Distortion at a few frequencies an octave apart; what noise may have made up stands as a bound.
 * Spaces within an item are firm. */
export function distortionText(distortion: Distortion, style: TextStyle): string {
  const picked = new Map<number, string>();
  for (const wantedHz of distortionAtHz) {
    let index = -1;
    distortion.fHz.forEach((fHz, i) => {
      const nearer =
        index < 0 || Math.abs(Math.log(fHz / wantedHz)) < Math.abs(Math.log(distortion.fHz[index] / wantedHz));
      if (distortion.thdPct[i] !== null && nearer) index = i;
    });
    if (index < 0 || Math.abs(Math.log2(distortion.fHz[index] / wantedHz)) > 1 / 6) continue;
    const thdPct = distortion.thdPct[index] as number;
    if (!distortion.valid[index] && thdPct > boundMostPct) continue;
    const bound = distortion.valid[index] ? '' : `${signs(style).atMost} `;
    const label = wantedHz >= 1000 ? `${wantedHz / 1000} kHz` : `${wantedHz} Hz`;
    picked.set(index, `${label} ${bound}${percentText(thdPct)}`.replaceAll(' ', firm));
  }
  return [...picked.values()].join(', ');
}

function arrivalText(arrivalS: number, sigmaS: number | undefined, style: TextStyle): string {
  return uncertainText(arrivalS * 1e3, sigmaS === undefined ? undefined : sigmaS * 1e3, 'ms', style);
}

function recordingRows(reading: Reading, style: TextStyle): Row[] {
  const { quality } = reading;
  const peak = quality.peakDbfs === null ? 'nothing but zeros' : `peak ${quality.peakDbfs.toFixed(1)} dBFS`;
  const form = `${quality.rateHz / 1000} kHz, ${quality.bits} bit, ${quality.durationS.toFixed(1)} s, ${peak}`;
  const rows: Row[] = [['Recording', `input ${quality.input} of ${quality.inputs}, ${form}`]];
  if (quality.startS !== undefined) rows.push(['Track starts at', `${quality.startS.toFixed(4)} s`]);
  if (quality.driftPpm !== undefined) {
    const { driftPpm, driftSigmaPpm } = quality;
    const text =
      driftSigmaPpm === undefined ? `${driftPpm.toFixed(1)} ppm` : uncertainText(driftPpm, driftSigmaPpm, 'ppm', style);
    const way = driftPpm >= 0 ? 'fast' : 'slow';
    rows.push(['Clock drift', `${driftPpm > 0 ? '+' : ''}${text} (the recorder's clock is ${way})`]);
  }
  return rows;
}

function resultRows(reading: Reading | StimulusReading, style: TextStyle): Row[] {
  const rows: Row[] = [];
  if (reading.arrivalS !== undefined) {
    rows.push(['Arrival', `${arrivalText(reading.arrivalS, reading.arrivalSigmaS, style)} after the time reference`]);
  }
  if ('leftMinusRightS' in reading && reading.leftMinusRightS !== undefined) {
    rows.push(['Left minus right', arrivalText(reading.leftMinusRightS, reading.leftMinusRightSigmaS, style)]);
  }
  if ('pairSign' in reading && reading.pairSign !== undefined) {
    const { sign, reason } = reading.pairSign;
    const word = sign === 0 ? 'cannot say' : sign > 0 ? 'pull together' : 'pull against each other';
    rows.push(['Left and right', `${word}: ${reason} (a hint, no proof)`]);
  }
  if (reading.polarity !== undefined) rows.push(['Polarity', polarityText(reading.polarity)]);
  if (reading.band !== undefined) rows.push(['Plays from', bandText(reading.band)]);
  const distortion = reading.distortion === undefined ? '' : distortionText(reading.distortion, style);
  if (distortion !== '') rows.push(['Distortion', distortion]);
  return rows;
}

function stimulusLines(stimuli: StimulusReading[], style: TextStyle): string[] {
  if (stimuli.length < 2) return [];
  return stimuli.flatMap((stimulus) => [
    `  ${stimulus.side}, ${stimulus.kind} at ${Math.round(10 * stimulus.levelDbfs) / 10} dBFS`,
    ...rowsText(resultRows(stimulus, { ...style, width: style.width - 4 }), { ...style, width: style.width - 4 }).map(
      (line) => `    ${line}`,
    ),
  ]);
}

function toneLines(reading: Reading, style: TextStyle): string[] {
  return (reading.tones ?? []).map((tone) => {
    const level = tone.levelDbfs === null ? 'level not known' : `${tone.levelDbfs.toFixed(1)} dBFS`;
    const bound = tone.thdPct !== null && tone.floorPct !== null && tone.thdPct <= tone.floorPct;
    const thd =
      tone.thdPct === null ? 'not known' : `${bound ? `${signs(style).atMost} ` : ''}${percentText(tone.thdPct)}`;
    return `  ${hzText(tone.fHz)} at ${tone.startS.toFixed(2)} s: ${level}, distortion ${thd}`;
  });
}

function plotLines(reading: Reading, style: TextStyle): string[] {
  if (reading.response === undefined) return [];
  const plot = textPlot(reading.response, style);
  const doubtful = reading.response.valid.includes(false) ? '; dotted: not to be relied on' : '';
  const unit = reading.reference === 'spl' ? 'dB SPL' : 'dB, recorded over played';
  const title = wrapped(`Response (${unit}${doubtful})`, style.width);
  return plot.length === 0 ? [] : ['', ...title, ...plot];
}

/** What to do when nothing can be said about the car: every stop's remedy once, in order. */
function nextSteps(problems: Problem[], style: TextStyle): string[] {
  const mends = [...new Set(problems.filter(({ severity }) => severity === 'stop').map(({ mend }) => mend))];
  return mends.flatMap((mend, index) => wrapped(`  ${index + 1}. ${mend}`, style.width, 5));
}

/** The whole reading as text, `style.width` columns wide at most; it ends with a line end. */
export function readingSummary(reading: Reading, style: TextStyle): string {
  const { quality } = reading;
  const shown = quality.usable ? quality.problems : quality.problems.filter(({ severity }) => severity !== 'note');
  const lines = [
    ...wrapped(quality.verdict, style.width),
    ...section(
      'Problems',
      shown.flatMap((problem) => problemLines(problem, quality, style)),
    ),
    ...(quality.usable ? [] : section('What to do now', nextSteps(quality.problems, style))),
    '',
    ...rowsText([...recordingRows(reading, style), ...resultRows(reading, style)], style),
    ...plotLines(reading, style),
    ...section('Each stimulus', stimulusLines(reading.stimuli ?? [], style)),
    ...section('Tones', toneLines(reading, style)),
    ...section('Not said, and why', withheldLines(reading, style)),
  ];
  return `${lines.join('\n')}\n`;
}
