/** One line for the person who sets a chat up. `note`: nothing is wrong, but they will want to know. */
export interface Finding {
  readonly state: 'good' | 'note' | 'mend';
  readonly text: string;
}

export const good = (text: string): Finding => ({ state: 'good', text });
export const note = (text: string): Finding => ({ state: 'note', text });
export const mend = (text: string): Finding => ({ state: 'mend', text });
