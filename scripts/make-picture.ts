// Draws the picture of the README from the reading of the example, so that it shows what the tool says and nothing else.
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { responseChart } from '../src/charts/response-chart.ts';
import { hzText } from '../src/cli/number-text.ts';
import type { Reading } from '../src/measurement/reading.ts';

const call = ['bin/kickpanel', 'read', 'examples/door.wav', '--track', 'examples/door.track.json', '--json'];
const { stdout, status } = spawnSync(process.execPath, call, { encoding: 'utf8', maxBuffer: 1 << 26 });
if (status !== 0) throw new Error(`the example cannot be read: ${stdout}`);
const { response, band, arrivalS } = JSON.parse(stdout) as Reading;
if (!response || !band || arrivalS === undefined || band.lowHz === null || band.highHz === null) {
  throw new Error('the example no longer shows response, band and arrival');
}
const early = `${Math.abs(arrivalS * 1e3).toFixed(2)} ms ${arrivalS < 0 ? 'before' : 'after'} the right tweeter`;
const svg = responseChart({
  ...response,
  sentence: `The left door plays from ${hzText(band.lowHz)} to ${hzText(band.highHz)} and arrives ${early}.`,
  state: 'One take of a simulated car, dB recorded over played, 1/12 octave; shaded: not to be relied on.',
  marksHz: [band.lowHz, band.highHz],
  widthPx: 880,
  heightPx: 400,
});
writeFileSync('docs/door-response.svg', svg);
