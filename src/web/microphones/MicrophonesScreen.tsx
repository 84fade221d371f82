// The shop's microphones: what full scale stands for, and how each of them deviates. Kept per microphone.
import './microphones.css';
import { type ChangeEvent, useState } from 'react';
import { fixedText, frequencyText } from '../../charts/number-words.ts';
import { deviationAt } from '../../measurement/microphone-calibration.ts';
import type { Correction, Microphone } from '../api-client.ts';
import { useDevices } from '../audio/devices.ts';
import { Choice } from '../parts/Choice.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Field } from '../parts/Field.tsx';
import { Icon } from '../parts/Icon.tsx';
import { dayText } from '../parts/times.ts';
import { useNumbers } from '../settings.ts';
import { Page } from '../shell/Page.tsx';
import { newId } from '../shop/ids.ts';
import { countWords } from '../shop/job-words.ts';
import { learned } from '../shop/known-answers.ts';
import { deviceName, useMicrophones } from '../shop/microphones.ts';
import { noteAnswer } from '../shop/saved-status.ts';
import { useShop } from '../shop/shop-context.ts';
import { type ShopError, shopErrorFrom } from '../shop/shop-error.ts';
import { whoWrites } from '../shop/use-job.ts';
import { type Figure, FigureCalibration } from './FigureCalibration.tsx';
import { fullScaleFromTone } from './full-scale.ts';
import { ToneCalibration, type ToneHeard } from './ToneCalibration.tsx';

type Way = 'tone' | 'figure' | 'file';

export function MicrophonesScreen() {
  const { api } = useShop();
  const style = useNumbers();
  const { value: microphones, error: away } = useMicrophones();
  const [inputId, setInputId] = useState<string | null>(null);
  const [way, setWay] = useState<Way>('tone');
  const [tone, setTone] = useState<ToneHeard | null>(null);
  const [figure, setFigure] = useState<Figure | null>(null);
  const [correction, setCorrection] = useState<(Correction & { file: string }) | null>(null);
  const [typedName, setTypedName] = useState('');
  const [error, setError] = useState<ShopError | null>(null);
  const [asked, setAsked] = useState(0);
  const { inputs, named } = useDevices(`${tone?.label ?? ''}${asked}`);
  const chosen = inputs.find(({ deviceId }) => deviceId === inputId) ?? inputs[0];
  const name = typedName.trim() || tone?.label || (named ? (chosen?.label ?? '') : '');
  const device = deviceName(name);
  const known = microphones?.find((microphone) => microphone.name === device);
  const usedCorrection = correction?.correction ?? known?.correction;
  const made = calibration({ way, tone, figure, correction, usedCorrection });
  const waits = device === '' ? 'opens once the microphone has a name' : made === null ? waitsFor(way) : null;
  const write = async () => {
    if (waits !== null || made === null) return;
    try {
      const list = await api.calibrateMicrophone(whoWrites(), {
        microphone: known?.microphone ?? newId(),
        name: device,
        ...made,
        ...(correction ? { correction: correction.correction } : {}),
      });
      learned('microphones', list);
      noteAnswer();
      setError(null);
    } catch (failed) {
      setError(shopErrorFrom(failed));
    }
  };
  const readFile = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const [file] = target.files ?? [];
    if (!file) return;
    try {
      setCorrection({ ...(await api.correctionIn(await file.text())), file: file.name });
      setError(null);
    } catch (failed) {
      setError(shopErrorFrom(failed));
    } finally {
      target.value = '';
    }
  };
  const askNames = async () => {
    const stream = await navigator.mediaDevices.getUserMedia({ audio: true }).catch(() => null);
    for (const track of stream?.getTracks() ?? []) track.stop();
    setAsked((before) => before + 1);
  };
  const calibrated = (microphones ?? []).filter(({ fullScaleSplDb }) => fullScaleSplDb !== undefined).length;
  const says =
    calibrated === 0
      ? 'No microphone is calibrated yet, so levels are relative.'
      : `${countWords(calibrated, 'microphone reads', 'microphones read')} in dB SPL.`;
  const splText =
    made?.fullScaleSplDb === undefined ? '' : `full scale is ${fixedText(made.fullScaleSplDb, 1, style)} dB SPL`;
  return (
    <Page
      name="microphones"
      title="Microphones"
      head={{ id: { text: 'Kickpanel' }, fields: [{ name: 'Microphones', text: 'of the shop' }] }}
      says={says}
      bar={{
        why: 'A calibration holds as long as nobody turns the gain of the input.',
        main: {
          text: known ? 'Calibrate it anew' : 'Keep this microphone',
          small: waits ?? (splText || 'its correction'),
          waits: waits !== null,
          onPress: () => void write(),
        },
      }}
    >
      {away ? <ErrorCard error={away} /> : null}
      {error ? <ErrorCard error={error} safe="Nothing was changed." /> : null}
      <div className="mic-grid">
        <section aria-label="Calibrate a microphone">
          <h2 className="h2s">Calibrate</h2>
          <div className="calibrate">
            <div className="two">
              <Field label="Microphone">
                {(given) => (
                  <select
                    {...given}
                    value={chosen?.deviceId ?? ''}
                    onChange={({ target }) => setInputId(target.value || null)}
                  >
                    {inputs.map(({ deviceId, label }) => (
                      <option key={deviceId} value={deviceId}>
                        {label}
                      </option>
                    ))}
                    {inputs.length === 0 ? <option value="">none is plugged in</option> : null}
                  </select>
                )}
              </Field>
              <Field label="Name" hint="As the browser names the device, so that it is known again.">
                {(given) => (
                  <input
                    {...given}
                    value={typedName}
                    placeholder={device}
                    maxLength={120}
                    onChange={({ target }) => setTypedName(target.value)}
                  />
                )}
              </Field>
            </div>
            {named ? null : (
              <button type="button" className="btn" onClick={() => void askNames()}>
                Show the names of the devices
              </button>
            )}
            <Choice
              legend="By what"
              columns={3}
              options={[
                { value: 'tone', label: 'Calibrator', small: 'a tone of known level' },
                { value: 'figure', label: 'Figures', small: 'from data sheets' },
                { value: 'file', label: 'Only a file', small: 'its deviation' },
              ]}
              value={way}
              onChange={setWay}
            />
          </div>
          {way === 'tone' ? <ToneCalibration inputId={chosen?.deviceId ?? null} onTone={setTone} /> : null}
          {way === 'figure' ? <FigureCalibration onFigure={setFigure} /> : null}
          <div className="calibrate">
            <p className="said">
              {correction
                ? `${correction.file}: ${correction.correction.fHz.length} frequencies, ${rangeText(correction.correction, style)}. ${correction.notes.join(' ')}`
                : 'A correction file tells how the microphone deviates over frequency.'}
            </p>
            <label className="btn file">
              <Icon name="save" />
              Choose its correction file
              <input type="file" accept=".txt,.cal,.frd,.csv,text/plain" onChange={readFile} />
            </label>
          </div>
        </section>
        <section aria-label="Microphones of the shop">
          <h2 className="h2s">Known here</h2>
          {(microphones ?? []).length === 0 ? (
            <p className="said">None yet. Takes are recorded all the same; their levels are relative.</p>
          ) : (
            <ul className="mics">
              {(microphones ?? []).map((microphone) => (
                <MicrophoneLine key={microphone.microphone} microphone={microphone} />
              ))}
            </ul>
          )}
        </section>
      </div>
    </Page>
  );
}

function waitsFor(way: Way): string {
  if (way === 'tone') return 'opens once the tone stands still';
  return way === 'figure' ? 'opens once the figures are there' : 'opens once a file is chosen';
}

function calibration(given: {
  way: Way;
  tone: ToneHeard | null;
  figure: Figure | null;
  correction: Correction | null;
  usedCorrection: { fHz: number[]; deviationDb: number[] } | undefined;
}): { fullScaleSplDb?: number; method?: string } | null {
  const { way, tone, figure, correction, usedCorrection } = given;
  if (way === 'tone') {
    if (!tone) return null;
    const deviationDb = usedCorrection ? deviationAt(usedCorrection, tone.toneHz).deviationDb : 0;
    return {
      fullScaleSplDb: Number(fullScaleFromTone(tone.knownDb, tone.levelDbfs, deviationDb).toFixed(2)),
      method: `calibrator, ${tone.knownDb} dB at ${tone.toneHz} Hz`,
    };
  }
  if (way === 'figure') {
    return figure && { fullScaleSplDb: Number(figure.fullScaleSplDb.toFixed(2)), method: figure.method };
  }
  if (!correction) return null;
  const { fullScaleSplDb } = correction;
  return fullScaleSplDb === undefined ? {} : { fullScaleSplDb, method: 'figure in the correction file' };
}

function rangeText({ fHz }: { fHz: number[] }, style: { decimal: '.' | ',' }): string {
  return `${frequencyText(fHz[0], style)} to ${frequencyText(fHz[fHz.length - 1], style)}`;
}

function MicrophoneLine({ microphone }: { microphone: Microphone }) {
  const style = useNumbers();
  const { name, fullScaleSplDb, method, correction, when, who } = microphone;
  return (
    <li>
      <Icon name={fullScaleSplDb === undefined ? 'note' : 'ok'} />
      <span>
        <b>{name}</b>
        <small>
          {fullScaleSplDb === undefined ? 'relative' : `full scale is ${fixedText(fullScaleSplDb, 1, style)} dB SPL`}
          {method ? `; ${method}` : ''}
        </small>
        <small>
          {correction ? `corrected from ${rangeText(correction, style)}` : 'no correction file'}; {dayText(when)}, {who}
        </small>
      </span>
    </li>
  );
}
