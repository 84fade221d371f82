import { describe, expect, test } from 'vitest';
import { type AppliedInput, appliedChecks, appliedInput } from './applied.ts';

const good: AppliedInput = {
  label: 'A microphone',
  deviceId: 'a',
  deviceRateHz: 48_000,
  rateHz: 48_000,
  channels: 1,
  bits: 24,
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
};
const severities = (input: AppliedInput) => appliedChecks(input).map(({ severity }) => severity);

describe('what the browser applied', () => {
  test('is in order when nothing is changed and nothing is converted', () => {
    expect(severities(good)).toEqual(['ok', 'ok', 'ok']);
  });

  test('stops where the browser keeps working on the sound', () => {
    const [processing] = appliedChecks({ ...good, noiseSuppression: true, autoGainControl: true });
    expect(processing.severity).toBe('stop');
    expect(processing.small).toContain('noise suppression and automatic gain');
  });

  test('is not taken for off where the browser does not say', () => {
    expect(severities({ ...good, autoGainControl: undefined })[0]).toBe('note');
  });

  test('says so when the browser converts the rate, or keeps the device\u2019s to itself', () => {
    expect(appliedChecks({ ...good, deviceRateHz: 44_100 })[1]).toMatchObject({ severity: 'fix', value: '48 kHz' });
    expect(severities({ ...good, deviceRateHz: undefined })[1]).toBe('note');
    expect(severities({ ...good, deviceRateHz: 16_000, rateHz: 16_000 })[1]).toBe('fix');
  });

  test('is read from the settings of the track, not from the constraints', () => {
    const track = {
      label: 'Fake',
      getSettings: () => ({ deviceId: 'x', sampleRate: 44_100, echoCancellation: true, noiseSuppression: false }),
    } as unknown as MediaStreamTrack;
    expect(appliedInput(track, 44_100)).toMatchObject({
      label: 'Fake',
      deviceRateHz: 44_100,
      echoCancellation: true,
      noiseSuppression: false,
      autoGainControl: undefined,
    });
  });
});
