/**
 * Texts that are rightly the same as in English, by language: a proper term, or a word that both languages write alike.
 * Whoever adds one has looked at it.
 */
export const sameWords: Readonly<Record<string, readonly string[]>> = {
  es: ['board.emergencyHospital'],
  pt: ['board.emergencyHospital', 'board.pageBriefing', 'paper.brief.title', 'paper.sign.revision'],
  pl: ['word.grade.stop', 'plan.summary'],
};
