// Screens that are fetched when they are first opened, so that the page itself opens quickly.
import { type ComponentType, lazy } from 'react';
import { Page } from './shell/Page.tsx';

/** A newer build may have taken the old file away, or nothing answers and nothing was kept. */
function NotFetched() {
  return (
    <Page
      name="not-fetched"
      title="Not fetched"
      head={{ id: { text: 'Kickpanel' } }}
      says="This screen could not be fetched."
      more="The shop may have a newer version, or it does not answer. What you entered is kept."
      bar={{ main: { text: 'Load the page again', small: 'takes a moment', onPress: () => location.reload() } }}
    >
      {null}
    </Page>
  );
}

export function lazyScreen<Props extends object>(fetched: () => Promise<ComponentType<Props>>) {
  return lazy(async (): Promise<{ default: ComponentType<Props> }> => {
    try {
      await import('./plain-zod.ts');
      return { default: await fetched() };
    } catch {
      return { default: NotFetched };
    }
  });
}
