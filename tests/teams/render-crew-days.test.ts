import { describe, expect, it } from 'vitest';
import { renderMessage } from '../../adapters/teams/render.ts';
import { briefingOf } from '../briefing/briefing-of.ts';
import { crewDays } from '../briefing/crew-days.ts';
import { lostWords, options, partFaults } from './render-check.ts';

const languages = ['en', 'es', 'pt', 'pl'] as const;

describe.each(Object.entries(crewDays))('%s', (_name, { facts }) => {
  it.each(languages)('is briefed in Teams in %s within the limits, and no word is lost', (language) => {
    const message = briefingOf(facts, 'bram', language);
    const parts = renderMessage(message, options);
    expect(partFaults(parts)).toEqual([]);
    expect(lostWords(message, parts)).toEqual([]);
    // A whole briefing is one card: nobody has to look for the rest of it.
    expect(parts).toHaveLength(1);
  });
});
