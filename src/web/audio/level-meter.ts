// The level of what arrives: now, highest so far, and how quiet it was when nothing played.

export interface LevelNow {
  /** Highest sample of the last block, dB re full scale; the floor when it is silent. */
  peakDbfs: number;
  /** Root mean square of the last 0.125 s or so, dB re a full-scale square. */
  rmsDbfs: number;
  highestDbfs: number;
  /** Quietest stretch of 0.3 s so far, dB re a full-scale square; null before there is one. */
  noiseDbfs: number | null;
  /** Samples at full scale in runs of two or more. */
  clippedSamples: number;
  /** Which input is the louder one, counted from 0. */
  input: number;
}

const floorDb = -120;
const fastS = 0.125;
const quietS = 0.3;
/** A 16-bit converter's highest value, a little under 1. */
const fullScale = 32766 / 32768;

const db = (power: number): number => Math.max(floorDb, 10 * Math.log10(Math.max(power, 1e-12)));

export interface LevelMeter {
  feed(channels: readonly Float32Array[]): LevelNow;
}

/** A meter for sound at `rateHz`; the loudest input counts. */
export function levelMeter(rateHz: number): LevelMeter {
  let fast = 0;
  let started = false;
  let highest = 0;
  let clipped = 0;
  let run: number[] = [];
  let quietSum = 0;
  let quietFrames = 0;
  let noise = Number.POSITIVE_INFINITY;
  let totals: number[] = [];
  return {
    feed(channels) {
      const frames = channels[0]?.length ?? 0;
      if (run.length !== channels.length) {
        run = channels.map(() => 0);
        totals = channels.map(() => 0);
      }
      let peak = 0;
      let blockPower = 0;
      for (let channel = 0; channel < channels.length; channel++) {
        let sum = 0;
        for (const sample of channels[channel]) {
          const size = Math.abs(sample);
          sum += sample * sample;
          if (size > peak) peak = size;
          if (size >= fullScale) {
            run[channel]++;
            // Two in a row are no accident; the first of them counts once the second is there.
            if (run[channel] === 2) clipped += 2;
            else if (run[channel] > 2) clipped++;
          } else run[channel] = 0;
        }
        totals[channel] += sum;
        blockPower = Math.max(blockPower, sum / Math.max(1, frames));
      }
      highest = Math.max(highest, peak);
      const share = started ? 1 - Math.exp(-frames / rateHz / fastS) : 1;
      started = true;
      fast += share * (blockPower - fast);
      quietSum += blockPower * frames;
      quietFrames += frames;
      if (quietFrames >= quietS * rateHz) {
        // Digital silence is a muted device, not a quiet room.
        if (quietSum > 0) noise = Math.min(noise, quietSum / quietFrames);
        quietSum = 0;
        quietFrames = 0;
      }
      return {
        peakDbfs: db(peak * peak),
        rmsDbfs: db(fast),
        highestDbfs: db(highest * highest),
        noiseDbfs: Number.isFinite(noise) ? db(noise) : null,
        clippedSamples: clipped,
        input: totals.reduce((best, total, i) => (total > totals[best] ? i : best), 0),
      };
    },
  };
}
