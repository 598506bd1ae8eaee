import { describe, expect, it } from 'vitest';
import { loadSite } from '../../adapters/cli/site.ts';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { dayOf, mustOnBoard, SHIFT, today } from './day.ts';
import { type ChatKind, the, withAction, withHands } from './hands.ts';
import { wrongIn } from './wrong.ts';

/** The demo site with so many people that its platform's limits by the minute are met. */
function bigSite() {
  const site = loadSite();
  const one = the(site.pack.people[0], 'person in the demo site');
  const more = Array.from({ length: 60 - site.pack.people.length }, (_, index) => ({
    ...one,
    id: `hand${index + 10}`,
    name: `Hand ${index + 10}`,
    roles: ['helper' as const],
  }));
  return { ...site, pack: { ...site.pack, people: [...site.pack.people, ...more] } };
}

export function sixtySign(kind: ChatKind): void {
  describe(`60 people sign within a minute in ${kind.name}`, () => {
    it('each signature is in the journal, all is said in the end, once and in order, inside the limits', () =>
      withHands(
        kind,
        async (hands) => {
          const everybody = hands.site.pack.people.map(({ id }) => id);
          const day = dayOf(hands);
          const atWork = day.jobs.flatMap(({ sprayers, mixers }) => [...sprayers, ...mixers]);
          const others = everybody.filter((id) => !atWork.includes(id));
          await mustOnBoard(hands, 'ines', { type: 'post-day', entry: { ...day, others } });
          await hands.passTo('07:00');
          expect(hands.turnedAway()).toBeLessThan(4);
          expect(await wrongIn(hands)).toEqual([]);

          const shift = await today(hands);
          const before = hands.now();
          const updated = hands.updates();
          const press = (person: string, fits: (value: string) => boolean) => {
            const message = the(withAction(hands.own(person), '"revision"'), `message for ${person}`);
            return hands.press(person, message, ({ value }) => fits(value));
          };
          await Promise.all(
            everybody.map((person) => {
              const right = openQuestion(shift, person)?.order.indexOf(0);
              return press(
                person,
                (value) => value.includes('"answer"') && value.includes(`"choice":${right}`),
              );
            }),
          );
          await hands.until(() =>
            everybody.every((one) => withAction(hands.own(one), '"sign"') !== undefined),
          );
          await Promise.all(everybody.map((person) => press(person, (value) => value.includes('"sign"'))));
          expect(hands.now() - before).toBeLessThan(60_000);

          const signed = (await hands.potbell.store.journal(SHIFT(hands))).flatMap(({ event: { body } }) =>
            body.type === 'signed' ? [body.person] : [],
          );
          expect([...signed].sort()).toEqual([...everybody].sort());
          await hands.deliver();
          // Sixty signatures change the briefing in the channel sixty times; Slack takes one change at a time, and few are said.
          if (hands.surface === 'slack') expect(hands.updates() - updated).toBeLessThan(20);
          // What is said in one second arrives in the next beside what is said then: refused, and said a little later. A slow
          // machine has more of that; but nothing is refused over and over.
          expect(hands.turnedAway()).toBeLessThan(everybody.length);
          expect(hands.faults).toEqual([]);
          const names = new Map(hands.site.pack.people.map(({ id, name }) => [id, name]));
          const said = hands.channel().filter(({ summary }) => /^.* (has )?signed/.test(summary));
          expect(said).toHaveLength(60);
          const saidOf = said.map(({ summary }) =>
            signed.find((id) => summary.startsWith(`${names.get(id)} `)),
          );
          expect([...saidOf].sort()).toEqual([...everybody].sort());
          // Teams takes several a second in one conversation, and what is on its way at once may arrive the other way round.
          if (hands.surface === 'slack') expect(saidOf).toEqual(signed);
        },
        { site: bigSite() },
      ));
  });
}
