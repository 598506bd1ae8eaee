import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { renderMessage } from '../../adapters/teams/render.ts';
import { readForm } from '../../adapters/teams/render-read.ts';
import { renderFormSteps } from '../../adapters/teams/render-steps.ts';
import { buildForm } from '../../src/forms/forms.ts';
import type { Form } from '../../src/message/form.ts';
import { formIds } from '../../src/message/form-ids.ts';
import type { Message } from '../../src/message/message.ts';
import { announcements } from '../../src/views/announce.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { briefed, mixed, type Play, posted } from '../flow/harness.ts';
import { aPack, t } from '../flow/pack.ts';
import { shownValues } from '../slack/render-form-check.ts';
import { lostWords, options, partFaults } from './render-check.ts';
import { formFaults, lostOnCards, sent } from './render-form-check.ts';

const { textsFor } = loadTexts();
const pages = ['today', 'briefing', 'emergency', 'record', 'sign-off', 'notices', 'why'] as const;

function flushing(): Play {
  const play = mixed();
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  play.flushTo('tip-off');
  return play;
}

const plays = { 'no day': null, posted: posted(), briefed: briefed(), mixed: mixed(), flushing: flushing() };

function messagesOf(play: Play | null, language: string): readonly Message[] {
  const texts = textsFor(language);
  const at = { pack: aPack(), shift: play?.shift ?? null, now: play?.now ?? t('06:00'), texts };
  const shown = pages.flatMap((page) =>
    [null, 'finn', 'pia'].flatMap((viewer) =>
      pagePanels(page, { ...at, viewer }).map(({ message }) => message),
    ),
  );
  const said = play === null ? [] : announcements(null, play.state, play.journal, () => texts);
  return [...shown, ...said.map(({ message }) => message)];
}

function formsOf(play: Play | null, language: string): readonly Form[] {
  const at = {
    pack: aPack(),
    shift: play?.shift ?? null,
    previous: null,
    now: play?.now ?? t('06:00'),
    texts: textsFor(language),
  };
  return ['finn', 'pia'].flatMap((viewer) =>
    formIds.flatMap((id) => {
      const built = buildForm({ id, about: { rig: 'rig-1' } }, { ...at, viewer });
      return built.ok ? [built.form] : [];
    }),
  );
}

const cases = ['en', 'es', 'pt', 'pl'].flatMap((language) =>
  Object.entries(plays).map(([name, play]) => [language, name, play] as const),
);

describe('everything of a shift', () => {
  test.each(cases)('in %s, %s: messages are valid and whole', (language, name, play) => {
    const messages = messagesOf(play, language);
    expect(messages.length).toBeGreaterThan(name === 'no day' ? 5 : 15);
    for (const message of messages) {
      const parts = renderMessage(message, options);
      expect(partFaults(parts)).toEqual([]);
      expect(lostWords(message, parts)).toEqual([]);
      for (const block of message.blocks)
        if (block.kind === 'countdown') expect(parts[0]?.summary).toContain(block.clock);
    }
  });

  test.each(cases)(
    'in %s, %s: forms are one card each, whole, and sent untouched give what they showed',
    (language, name, play) => {
      const forms = formsOf(play, language);
      expect(forms.length).toBeGreaterThan(name === 'no day' ? 0 : 5);
      for (const form of forms) {
        const cards = renderFormSteps(form, options);
        expect(cards).toHaveLength(1);
        for (const { card, title } of cards) expect(formFaults(card, title)).toEqual([]);
        expect(
          lostOnCards(
            form,
            cards.map(({ card }) => card),
          ),
        ).toEqual([]);
        const answers = Object.assign({}, ...cards.map(({ card }) => readForm(sent(card))));
        expect(answers).toEqual(shownValues(form));
      }
    },
  );
});
