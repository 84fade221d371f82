import { goTo } from './router.ts';
import { Page } from './shell/Page.tsx';

export function UnknownPage() {
  return (
    <Page
      name="unknown"
      title="No such page"
      head={{ id: { text: 'Kickpanel' } }}
      says="There is no page at this address."
      more="The job may have been opened from an old link. All jobs hang on the bench."
      bar={{ main: { text: 'Back to the bench', onPress: () => goTo({ page: 'bench' }) } }}
    >
      {null}
    </Page>
  );
}
