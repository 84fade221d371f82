// Which screen is shown, and what goes on whatever the screen: keys, news of jobs, the way to the shop.
import { Suspense, useEffect } from 'react';
import { Bench } from './bench/Bench.tsx';
import { JobCard } from './job-card/JobCard.tsx';
import { sendKept, startOutbox } from './keep/outbox.ts';
import { lazyScreen } from './lazy-screen.tsx';
import { LiveScreen, LiveWithoutJob } from './live/LiveScreen.tsx';
import { MicrophonesScreen } from './microphones/MicrophonesScreen.tsx';
import { NewJob } from './new-job/NewJob.tsx';
import { Patterns } from './parts/Patterns.tsx';
import { ReadingScreen } from './reading/ReadingScreen.tsx';
import type { Route } from './route.ts';
import { useRoute } from './router.ts';
import { SettingsScreen } from './settings-page/SettingsScreen.tsx';
import { KeysHelp } from './shell/KeysHelp.tsx';
import { listenForKeys } from './shell/keys.ts';
import { refresh } from './shop/known-answers.ts';
import { noteAnswer, noteAway } from './shop/saved-status.ts';
import { useShop } from './shop/shop-context.ts';
import { jobResource } from './shop/use-job.ts';
import { TakeScreen } from './take/TakeScreen.tsx';
import { TakesScreen } from './takes/TakesScreen.tsx';
import { UnknownPage } from './UnknownPage.tsx';

const PlanScreen = lazyScreen(async () => (await import('./plan-lanes/PlanScreen.tsx')).PlanScreen);

const LoomScreen = lazyScreen(async () => (await import('./loom/LoomScreen.tsx')).LoomScreen);

const CoilsScreen = lazyScreen(async () => (await import('./coils/CoilsScreen.tsx')).CoilsScreen);

const DriverScreen = lazyScreen(async () => (await import('./driver-page/DriverScreen.tsx')).DriverScreen);

const BoxScreen = lazyScreen(async () => (await import('./box-page/BoxScreen.tsx')).BoxScreen);

const VehiclesScreen = lazyScreen(async () => (await import('./vehicles/VehiclesScreen.tsx')).VehiclesScreen);

const HoldPointsScreen = lazyScreen(async () => (await import('./proof/HoldPointsScreen.tsx')).HoldPointsScreen);

const FirstSoundScreen = lazyScreen(async () => (await import('./first-sound/FirstSoundScreen.tsx')).FirstSoundScreen);

const NearWalkScreen = lazyScreen(async () => (await import('./near-walk/NearWalkScreen.tsx')).NearWalkScreen);
const CheckInScreen = lazyScreen(async () => (await import('./check-in/CheckInScreen.tsx')).CheckInScreen);

const GainsScreen = lazyScreen(async () => (await import('./gains/GainsScreen.tsx')).GainsScreen);

const NoiseHuntScreen = lazyScreen(async () => (await import('./noise-hunt/NoiseHuntScreen.tsx')).NoiseHuntScreen);

function Screen({ route }: { route: Route }) {
  switch (route.page) {
    case 'bench':
      return <Bench />;
    case 'new-job':
      return <NewJob />;
    case 'job':
      return <JobCard id={route.job} key={route.job} />;
    case 'take':
      return (
        <TakeScreen
          id={route.job}
          place={route.place}
          near={route.near === true}
          key={`${route.job} ${route.place} ${route.near}`}
        />
      );
    case 'reading':
      return <ReadingScreen job={route.job} take={route.take} key={route.take} />;
    case 'takes':
      return <TakesScreen job={route.job} compare={route.compare} key={route.job} />;
    case 'live':
      return route.job === null ? <LiveWithoutJob /> : <LiveScreen id={route.job} key={route.job} />;
    case 'plan':
      return <PlanScreen job={route.job} part={route.part} key={`${route.job} ${route.part}`} />;
    case 'loom':
      return <LoomScreen job={route.job} lead={route.lead} key={`${route.job} ${route.lead}`} />;
    case 'coils':
      return <CoilsScreen job={route.job} load={route.load} key={route.job} />;
    case 'driver':
      return <DriverScreen job={route.job} driver={route.driver} key={route.job} />;
    case 'box':
      return <BoxScreen job={route.job} driver={route.driver} key={route.job} />;
    case 'hold-points':
      return <HoldPointsScreen job={route.job} cover={route.cover} key={`${route.job} ${route.cover}`} />;
    case 'first-sound':
      return <FirstSoundScreen job={route.job} key={route.job} />;
    case 'near-walk':
      return <NearWalkScreen job={route.job} key={route.job} />;
    case 'gains':
      return <GainsScreen job={route.job} key={route.job} />;
    case 'noise-hunt':
      return <NoiseHuntScreen job={route.job} key={route.job} />;
    case 'check-in':
      return <CheckInScreen job={route.job} at={route.at} key={`${route.job} ${route.at}`} />;
    case 'vehicles':
      return <VehiclesScreen job={route.job} key={route.job} />;
    case 'microphones':
      return <MicrophonesScreen />;
    case 'settings':
      return <SettingsScreen />;
    case 'unknown':
      return <UnknownPage />;
  }
}

export function App() {
  const { api } = useShop();
  const route = useRoute();
  useEffect(listenForKeys, []);
  useEffect(() => startOutbox(api), [api]);
  useEffect(
    () =>
      api.onChange((change) => {
        if (change === 'away') return noteAway();
        noteAnswer();
        void sendKept(api);
        if (change === 'back') return refresh('');
        refresh('jobs');
        refresh(jobResource(change.job));
      }),
    [api],
  );
  return (
    <>
      <Patterns />
      <Suspense fallback={null}>
        <Screen route={route} />
      </Suspense>
      <KeysHelp />
    </>
  );
}
