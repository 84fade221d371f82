// What the browser really does with a microphone, against what was asked for: constraints are wishes, settings are facts.

export interface AppliedInput {
  label: string;
  deviceId: string;
  /** As the device says; undefined where the browser does not tell. */
  deviceRateHz: number | undefined;
  /** As the sound arrives here. */
  rateHz: number;
  /** Undefined until the first block has come. */
  channels: number | undefined;
  bits: number | undefined;
  /** What the browser says it changes; undefined where it does not say. */
  echoCancellation: boolean | undefined;
  noiseSuppression: boolean | undefined;
  autoGainControl: boolean | undefined;
}

export interface AppliedCheck {
  severity: 'ok' | 'note' | 'fix' | 'stop';
  name: string;
  value: string;
  small: string;
}

type Settings = MediaTrackSettings & { sampleSize?: number };

export function appliedInput(track: MediaStreamTrack, contextRateHz: number): AppliedInput {
  const settings: Settings = track.getSettings();
  const flag = (value: unknown) => (typeof value === 'boolean' ? value : typeof value === 'string' ? true : undefined);
  return {
    label: track.label,
    deviceId: settings.deviceId ?? '',
    deviceRateHz: settings.sampleRate,
    rateHz: contextRateHz,
    channels: undefined,
    bits: settings.sampleSize,
    echoCancellation: flag(settings.echoCancellation),
    noiseSuppression: flag(settings.noiseSuppression),
    autoGainControl: flag(settings.autoGainControl),
  };
}

const kHz = (rateHz: number): string => `${rateHz / 1000} kHz`;

function processingCheck(input: AppliedInput): AppliedCheck {
  const parts = [
    ['echo cancellation', input.echoCancellation],
    ['noise suppression', input.noiseSuppression],
    ['automatic gain', input.autoGainControl],
  ] as const;
  const on = parts.filter(([, value]) => value === true).map(([name]) => name);
  const silent = parts.filter(([, value]) => value === undefined).map(([name]) => name);
  if (on.length > 0) {
    const small = `${on.join(' and ')} cannot be switched off here: use another browser, device or recorder`;
    return { severity: 'stop', name: 'Processing', value: 'on', small };
  }
  if (silent.length > 0) {
    const small = `the browser does not say what it does about ${silent.join(' and ')}; the reading checks for it`;
    return { severity: 'note', name: 'Processing', value: 'not told', small };
  }
  return {
    severity: 'ok',
    name: 'Processing',
    value: 'off',
    small: 'echo cancellation, noise suppression, automatic gain',
  };
}

function rateCheck({ deviceRateHz, rateHz }: AppliedInput): AppliedCheck {
  const name = 'Sample rate';
  if (deviceRateHz === undefined) {
    const small = 'the browser does not say what the device runs at; it may convert between';
    return { severity: 'note', name, value: kHz(rateHz), small };
  }
  if (deviceRateHz !== rateHz) {
    const small = `the device runs at ${kHz(deviceRateHz)}; the browser converts, which costs the top of the treble`;
    return { severity: 'fix', name, value: kHz(rateHz), small };
  }
  if (rateHz < 32_000) {
    return { severity: 'fix', name, value: kHz(rateHz), small: `nothing above ${kHz(rateHz / 2)} can be heard` };
  }
  return { severity: 'ok', name, value: kHz(rateHz), small: 'as the device runs, not converted' };
}

function channelsCheck({ channels }: AppliedInput): AppliedCheck {
  const name = 'Inputs';
  if (channels === undefined) return { severity: 'note', name, value: '\u2013', small: 'no sound has come yet' };
  const small = channels === 1 ? 'one microphone' : 'the one that hears the track is read';
  return { severity: 'ok', name, value: String(channels), small };
}

/** What a person should know before recording, in a fixed order. */
export function appliedChecks(input: AppliedInput): AppliedCheck[] {
  return [processingCheck(input), rateCheck(input), channelsCheck(input)];
}
