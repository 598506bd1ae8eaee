/** What became of a call that failed. `why` is one plain sentence without tokens, addresses or the platform's text. */
export type Failed =
  /** Nothing was shown. `afterMs` when the platform named a wait. */
  | { readonly kind: 'retry'; readonly why: string; readonly afterMs?: number }
  /** Trying again is no use until somebody has done what `why` says. `code` is the platform's name for it. */
  | { readonly kind: 'gone'; readonly why: string; readonly code: string }
  /** It may have been shown or not: look before saying it again. */
  | { readonly kind: 'unclear'; readonly why: string };

export type Sent<T> =
  | { readonly kind: 'ok'; readonly value: T }
  | Failed
  /** It is not this conversation's turn; nothing was sent. */
  | { readonly kind: 'later'; readonly afterMs: number };
