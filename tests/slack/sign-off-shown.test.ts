import { expect, it } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import type { Fault } from '../peers/slack/types.ts';
import { crewOnSlack, read } from './crew.ts';
import { dayOf, mustOnBoard } from './faults.ts';

const texts = loadTexts().textsFor('es');

it.each<Fault>([{ kind: 'status', status: 503 }, { kind: 'drop' }, { kind: 'error', error: 'is_archived' }])(
  'a sign-off that their own conversation does not take ($kind) is shown where it was asked for',
  async (fault) => {
    const crew = await crewOnSlack();
    await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
    await crew.passTo('07:00');
    const tomas = crew.member('tomas');
    await crew.slack.openHome(tomas);
    await crew.slack.until(() => crew.slack.home(tomas) !== null);
    crew.slack.fault('chat.postMessage', fault);
    await crew.slack.pressIn(tomas, 'home', { label: texts.say('today.people-sign') });
    await crew.slack.until(() => crew.slack.modals(tomas).length > 0);
    expect(crew.slack.faultsLeft()).toBe(0);
    expect(read(crew.slack.modals(tomas).at(-1)?.view)).toContain('pregunta');
    expect(crew.faults).toEqual([]);
    await crew.close();
  },
);
