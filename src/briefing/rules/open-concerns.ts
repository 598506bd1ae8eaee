import { personName } from '../../facts/used.ts';
import { becauseYesterday } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** What somebody said yesterday and nobody has answered yet. */
export const openConcerns: CautionRule = {
  id: 'open-concerns',
  grade: 'must',
  tasks: 'everybody',
  params: ['count'],
  eachParams: ['by', 'text'],
  questions: [
    { id: 'not-answered', choices: 3 },
    { id: 'new-worry', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const concerns = carriedIn?.concerns ?? [];
    if (concerns.length === 0) return null;
    return {
      params: { count: concerns.length },
      each: concerns.map(({ by, text }) => ({ by: personName(day, by), text })),
      because: concerns.map(({ by, text }) => becauseYesterday(personName(day, by), 'concerns', text)),
    };
  },
};
