import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { renderMessage } from '../../adapters/slack/render.ts';
import { readForm } from '../../adapters/slack/render-read.ts';
import { renderFormSteps } from '../../adapters/slack/render-steps.ts';
import { buildForm } from '../../src/forms/forms.ts';
import type { FormRef } from '../../src/message/action.ts';
import type { Form } from '../../src/message/form.ts';
import { formIds } from '../../src/message/form-ids.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { announcements } from '../../src/views/announce.ts';
import { batchMessage } from '../../src/views/batch.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { briefed, mixed, type Play, posted } from '../flow/harness.ts';
import { aPack, t } from '../flow/pack.ts';
import { lostWords, options, partFaults, read, same } from './render-check.ts';
import { shownValues, submitted, viewFaults } from './render-form-check.ts';

const { textsFor } = loadTexts();
const pages = ['today', 'briefing', 'emergency', 'record', 'sign-off', 'notices', 'why'] as const;

function rungOut(): Play {
  const play = mixed();
  play.ringUntil('10:10');
  return play;
}

function flushing(): Play {
  const play = mixed();
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  play.flushTo('tip-off');
  return play;
}

const plays = {
  'no day': null,
  posted: posted(),
  briefed: briefed(),
  mixed: mixed(),
  rung: rungOut(),
  flushing: flushing(),
};

/** Everything anybody can be shown or told of a shift. */
function messagesOf(play: Play | null, language: string): readonly Message[] {
  const texts = textsFor(language);
  const now = play?.now ?? t('06:00');
  const shown = pages.flatMap((page) =>
    [null, 'finn', 'pia', 'lou'].flatMap((viewer) =>
      pagePanels(page, { pack: aPack(), shift: play?.shift ?? null, now, texts, viewer }).map(
        ({ message }) => message,
      ),
    ),
  );
  if (!play) return shown;
  const said = announcements(null, play.state, play.journal, () => texts).map(({ message }) => message);
  const batches = Object.values(play.state.rigs).flatMap(({ batches: all }) =>
    all.map((batch) => batchMessage({ shift: play.state, texts, now }, batch)),
  );
  return [...shown, ...said, ...batches];
}

const refsIn = (blocks: readonly Block[]): readonly FormRef[] =>
  blocks.flatMap((block) => {
    if (block.kind === 'more' || block.kind === 'below') return refsIn(block.blocks);
    return block.kind === 'buttons'
      ? block.buttons.flatMap(({ action }) => (action.kind === 'open' ? [action.form] : []))
      : [];
  });

function formsOf(play: Play | null, language: string, messages: readonly Message[]): readonly Form[] {
  const refs = [
    ...messages.flatMap(({ blocks }) => refsIn(blocks)),
    ...formIds.map((id) => ({ id, about: { rig: 'rig-1' } })),
  ];
  const at = {
    pack: aPack(),
    shift: play?.shift ?? null,
    previous: null,
    now: play?.now ?? t('06:00'),
    texts: textsFor(language),
  };
  return ['finn', 'pia'].flatMap((viewer) =>
    refs.flatMap((ref) => {
      const built = buildForm(ref, { ...at, viewer });
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
    expect(messages.length).toBeGreaterThan(name === 'no day' ? 5 : 20);
    for (const message of messages)
      for (const more of ['inline', 'button'] as const) {
        const parts = renderMessage(message, { ...options, more });
        expect(partFaults(parts)).toEqual([]);
        expect(lostWords(message, parts)).toEqual([]);
        const text = read(parts[0]?.text ?? '');
        expect(same(text).startsWith(same(message.summary))).toBe(true);
        for (const block of message.blocks)
          if (block.kind === 'countdown') expect(text).toContain(block.clock);
      }
  });

  test.each(cases)(
    'in %s, %s: forms are valid, whole, and sent untouched give what they showed',
    (language, name, play) => {
      const forms = formsOf(play, language, messagesOf(play, language));
      expect(forms.length).toBeGreaterThan(name === 'no day' ? 0 : 15);
      for (const form of forms) {
        const views = renderFormSteps(form, options).map(({ view }) => view);
        for (const view of views) expect(viewFaults(view)).toEqual([]);
        const answers = Object.assign({}, ...views.map((view) => readForm(submitted(view))));
        expect(answers).toEqual(shownValues(form));
      }
    },
  );
});
