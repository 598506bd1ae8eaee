/** What stood before somebody's eyes when they signed or answered, word for word. */
export interface Shown {
  readonly language: string;
  readonly text: string;
}
