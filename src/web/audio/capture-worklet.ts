// Runs on the audio thread: gathers what the microphone gives and hands it on, every sample of it, with its place in time.

/** What the audio thread offers, as far as it is used here; the page's own types do not have it. */
declare const currentFrame: number;
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessorLike): void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
interface AudioWorkletProcessorLike {
  process(inputs: Float32Array[][]): boolean;
}

/** One stretch of sound. */
export interface CapturedBlock {
  channels: Float32Array[];
  /** Frames that the audio thread counted but did not give, just before this block. */
  missingFrames: number;
}

/** About 20 ms: quick enough for a level, seldom enough for the message queue. */
const blockFrames = 1024;

class Capture extends AudioWorkletProcessor implements AudioWorkletProcessorLike {
  private out: MessagePort | null = null;
  private channels: Float32Array[] = [];
  private filled = 0;
  private expectedFrame = -1;
  private missingFrames = 0;
  private blocksSeen = 0;
  private ended = false;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<{ out?: MessagePort; end?: true }>) => {
      if (data.out) this.out = data.out;
      if (data.end) {
        this.send();
        this.out?.postMessage('end');
        this.ended = true;
      }
    };
  }

  process([input]: Float32Array[][]): boolean {
    if (this.ended) return false;
    if (!this.out || !input || input.length === 0) return true;
    const frames = input[0].length;
    // A first jump is the device starting up; later ones are sound that is lost.
    if (this.blocksSeen > 1 && currentFrame > this.expectedFrame)
      this.missingFrames += currentFrame - this.expectedFrame;
    this.expectedFrame = currentFrame + frames;
    this.blocksSeen++;
    if (this.missingFrames > 0 && this.filled > 0) this.send();
    if (this.channels.length !== input.length) {
      this.send();
      this.channels = input.map(() => new Float32Array(blockFrames));
    }
    for (let channel = 0; channel < input.length; channel++) this.channels[channel].set(input[channel], this.filled);
    this.filled += frames;
    if (this.filled + frames > blockFrames) this.send();
    return true;
  }

  private send(): void {
    if (this.filled > 0 && this.out) {
      const channels = this.channels.map((samples) => samples.slice(0, this.filled));
      const block: CapturedBlock = { channels, missingFrames: this.missingFrames };
      this.out.postMessage(
        block,
        channels.map(({ buffer }) => buffer),
      );
      this.missingFrames = 0;
    }
    this.filled = 0;
  }
}

registerProcessor('kickpanel-capture', Capture);
