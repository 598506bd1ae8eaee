import type { Message, Tone } from '../message/message.ts';

/** A part of a page: one message with a stable name, so that a surface can place and refresh it. */
export interface Panel {
  readonly id: string;
  readonly tone: Tone;
  /** A short name for the part; the message's summary is the sentence. */
  readonly title: string;
  readonly message: Message;
}

export function panel(id: string, title: string, content: Message): Panel {
  return { id, tone: content.tone, title, message: content };
}
