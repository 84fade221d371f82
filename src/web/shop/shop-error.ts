// What went wrong with a call to the shop's server, in the words that the server or the page has for it.

export interface ShopErrorFacts {
  code: string;
  message: string;
  where?: string | undefined;
  mend?: string | undefined;
  /** 0 when no answer came. */
  status: number;
}

export class ShopError extends Error {
  readonly facts: ShopErrorFacts;

  constructor(facts: ShopErrorFacts) {
    super(facts.message);
    this.name = 'ShopError';
    this.facts = facts;
  }

  /** No answer came at all: the server is away, not unwilling. */
  get unanswered(): boolean {
    return this.facts.status === 0 || this.facts.status === 502 || this.facts.status === 504;
  }
}

export const serverAway: ShopErrorFacts = {
  code: 'server-away',
  message: "The shop's server does not answer.",
  mend: 'Start it again where it runs. This page notices by itself; nothing that was recorded is lost.',
  status: 0,
};

export function shopErrorFrom(error: unknown): ShopError {
  if (error instanceof ShopError) return error;
  if (error instanceof TypeError) return new ShopError(serverAway);
  const message = error instanceof Error ? error.message : String(error);
  return new ShopError({ code: 'page-fault', message, status: -1 });
}
