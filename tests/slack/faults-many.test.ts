import { describe, expect, it } from 'vitest';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { bigSite } from './big-site.ts';
import { crewOnSlack } from './crew.ts';
import { dayOf, mustOnBoard, SHIFT, today, turnedAway, wrongIn } from './faults.ts';

describe('60 people sign within a minute', () => {
  it('each signature is in the journal, all is said in the end, once and in order, inside the limits', async () => {
    const crew = await crewOnSlack({ site: bigSite() });
    const everybody = crew.site.pack.people.map(({ id }) => id);
    const day = dayOf(crew);
    const atWork = day.jobs.flatMap(({ sprayers, mixers }) => [...sprayers, ...mixers]);
    await mustOnBoard(crew, 'ines', {
      type: 'post-day',
      entry: { ...day, others: everybody.filter((id) => !atWork.includes(id)) },
    });
    await crew.passTo('07:00');
    expect(turnedAway(crew)).toBeLessThan(4);
    expect(await wrongIn(crew)).toEqual([]);

    const began = crew.slack.clock.now();
    const updated = crew.slack.callsOf('chat.update').length;
    const press = async (person: string, fits: (value: string) => boolean) => {
      const dm = crew.slack.dm(crew.member(person));
      const messages = crew.dm(person).filter(({ threadTs }) => threadTs === null);
      for (const { ts, blocks } of messages.reverse())
        for (const [text] of JSON.stringify(blocks).matchAll(/"value":"((?:[^"\\]|\\.)*)"/g)) {
          const { value } = JSON.parse(`{${text}}`) as { value: string };
          if (fits(value)) return crew.slack.press(crew.member(person), { channel: dm, ts, value });
        }
      throw new Error(`${person} finds nothing to press`);
    };
    const shift = await today(crew);
    await Promise.all(
      everybody.map(async (person) => {
        const right = openQuestion(shift, person)?.order.indexOf(0);
        await press(person, (value) => value.includes('"answer"') && value.includes(`"choice":${right}`));
      }),
    );
    await crew.slack.until(() =>
      everybody.every((one) => JSON.stringify(crew.dm(one)).includes('\\"sign\\"')),
    );
    await Promise.all(everybody.map((person) => press(person, (value) => value.includes('"sign"'))));
    expect(crew.slack.clock.now() - began).toBeLessThan(60_000);

    const signed = (await crew.potbell.store.journal(SHIFT(crew))).flatMap(({ event: { body } }) =>
      body.type === 'signed' ? [body.person] : [],
    );
    expect([...signed].sort()).toEqual([...everybody].sort());
    await crew.deliver();
    expect(crew.slack.callsOf('chat.update').length - updated).toBeLessThan(10);
    expect(turnedAway(crew)).toBeLessThan(6);
    expect(crew.faults).toEqual([]);
    const names = new Map(crew.site.pack.people.map(({ id, name }) => [id, name]));
    const said = crew
      .channel()
      .map(({ text }) => /^(.*) has signed|^(.*) signed/.exec(text)?.[0])
      .filter((text) => text !== undefined);
    expect(said).toHaveLength(60);
    expect(said.map((text, at) => text.includes(names.get(signed[at] ?? '') ?? '?'))).toEqual(
      said.map(() => true),
    );
    await crew.close();
  });
});
