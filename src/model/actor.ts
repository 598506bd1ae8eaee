import type { PersonId } from './id.ts';

/** Who did it, as the surface verified it. Never read from a payload. */
export type Actor =
  | { readonly kind: 'person'; readonly person: PersonId; readonly surface: string }
  /** Somebody at a shared screen or outside the pack; may only stop the work. */
  | { readonly kind: 'unknown'; readonly surface: string }
  | { readonly kind: 'system'; readonly part: 'bells' | 'outbox' };
