// What a person sets on this device, and what the shop runs on.
import '../microphones/microphones.css';
import { fixedText, frequencyText } from '../../charts/number-words.ts';
import { Choice } from '../parts/Choice.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Facts } from '../parts/Facts.tsx';
import { Field } from '../parts/Field.tsx';
import { Icon } from '../parts/Icon.tsx';
import { goTo } from '../router.ts';
import { changeSettings, useSettings } from '../settings.ts';
import { Page } from '../shell/Page.tsx';
import { useResource } from '../shop/resource.ts';
import { useShop } from '../shop/shop-context.ts';

const awgAreaMm2 = (gauge: number): number => 53.475 * 92 ** (-gauge / 19.5);

export function SettingsScreen() {
  const { api } = useShop();
  const settings = useSettings();
  const { value: about, error } = useResource('about', () => api.about());
  const cable = settings.units === 'imperial' ? '8 AWG' : `${fixedText(awgAreaMm2(8), 1, settings)} mm\u00b2`;
  const length =
    settings.units === 'imperial' ? `${fixedText(6.5, 1, settings)} in` : `${fixedText(165, 0, settings)} mm`;
  return (
    <Page
      name="settings"
      title="Settings"
      head={{ id: { text: 'Kickpanel' }, fields: [{ name: 'Settings', text: 'of this device', wideOnly: true }] }}
      says={`Numbers read like this: ${[
        frequencyText(1610, settings),
        `${fixedText(-7.3, 1, settings)} dB`,
        length,
        cable,
      ]
        .map((quantity) => quantity.replaceAll(' ', '\u00a0'))
        .join(', ')}.`}
      bar={{ main: { text: 'Back to the bench', onPress: () => goTo({ page: 'bench' }) } }}
    >
      <div className="settings-grid">
        <section aria-label="On this device">
          <h2 className="h2s">On this device</h2>
          <Field label="Who writes" hint="Stands beside each entry of the journal.">
            {(given) => (
              <input
                {...given}
                value={settings.who}
                maxLength={80}
                autoComplete="off"
                onChange={({ target }) => changeSettings({ who: target.value })}
              />
            )}
          </Field>
          <Choice
            legend="Decimal sign"
            columns={2}
            options={[
              { value: '.', label: 'Point', small: '1.61 kHz' },
              { value: ',', label: 'Comma', small: '1,61 kHz' },
            ]}
            value={settings.decimal}
            onChange={(decimal) => changeSettings({ decimal })}
          />
          <Choice
            legend="Lengths and cables"
            columns={2}
            options={[
              { value: 'metric', label: 'Millimetres', small: 'cables in mm\u00b2' },
              { value: 'imperial', label: 'Inches', small: 'cables in AWG' },
            ]}
            value={settings.units}
            onChange={(units) => changeSettings({ units })}
          />
          <Choice
            legend="Light"
            columns={3}
            options={[
              { value: 'system', label: 'As the system' },
              { value: 'daylight', label: 'Daylight' },
              { value: 'dim', label: 'Dim' },
            ]}
            value={settings.theme}
            onChange={(theme) => changeSettings({ theme })}
          />
        </section>
        <section aria-label="The shop">
          <h2 className="h2s">The shop</h2>
          <button type="button" className="btn wide" onClick={() => goTo({ page: 'microphones' })}>
            <span>
              Microphones
              <small>calibrate them, so that levels are in dB SPL</small>
            </span>
            <Icon name="arrow" />
          </button>
          <button type="button" className="btn wide" onClick={() => goTo({ page: 'live', job: null })}>
            <span>
              Listen with a microphone
              <small>bands of what it hears now, without a job</small>
            </span>
            <Icon name="arrow" />
          </button>
          {error ? <ErrorCard error={error} /> : null}
          {about ? (
            <Facts
              label="What the shop runs on"
              rows={[
                ['Version', about.version],
                ['Reader', about.readerVersion],
                ['Jobs are kept in', about.dataFolder],
              ]}
            />
          ) : null}
        </section>
      </div>
    </Page>
  );
}
