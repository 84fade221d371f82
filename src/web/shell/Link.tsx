import type { AnchorHTMLAttributes, MouseEvent } from 'react';
import { addressOf, type Route } from '../route.ts';
import { goTo } from '../router.ts';

type LinkProps = { to: Route } & Omit<AnchorHTMLAttributes<HTMLAnchorElement>, 'href' | 'onClick'>;

/** A link to another screen; opened in a new tab it is a link like any other. */
export function Link({ to, children, ...more }: LinkProps) {
  const go = (event: MouseEvent) => {
    if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey) return;
    event.preventDefault();
    goTo(to);
  };
  return (
    <a href={addressOf(to)} onClick={go} {...more}>
      {children}
    </a>
  );
}
