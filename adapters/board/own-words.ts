/** Letters that run from right to left, and marks that turn a line by themselves. */
const turns =
  /[\p{Script=Arabic}\p{Script=Hebrew}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\u200F\u202A-\u202E\u2066-\u2069]/u;

/** Whether a piece of text could turn the words beside it, so that for example a figure reads on the wrong side. */
export const runsRightToLeft = (text: string): boolean => turns.test(text);

/** A name kept from turning the sentence around it where no markup can stand: between FSI and PDI (Unicode UAX 9). */
export const isolated = (text: string): string => (runsRightToLeft(text) ? `\u2068${text}\u2069` : text);
