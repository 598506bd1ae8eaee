import type { CoatingId } from '../model/id.ts';
import { own } from '../model/own.ts';
import type { Shift } from '../model/shift.ts';
import type { Texts } from '../texts/texts.ts';
import { byForm, labelOf } from './by-form.ts';
import { findRig, type RigMeant } from './find-rig.ts';
import { foldedWords, standsAt, wordsOf } from './fold.ts';
import { example } from './help.ts';
import { figuresOf, type Place, place } from './read-figures.ts';
import { standsApart, withoutMentions } from './rig-words.ts';
import { type Typed, type TypedContext, type Wrong, wrong } from './typed.ts';
import { wordToType } from './words.ts';

const places: readonly Place[] = [
  { field: 'litres', labels: [], measures: 'volume', needed: true },
  { field: 'paintC', labels: [], measures: 'temperature', needed: true },
  { field: 'thinnerL', labels: ['thinner'], measures: null, needed: false },
  { field: 'aL', labels: ['a'], measures: null, needed: false },
  { field: 'bL', labels: ['b'], measures: null, needed: false },
];

/** "batch 20 L 25 C", and what else belongs to a mix. Alone it opens the form; half of it is never filled up by a guess. */
export function readBatch(text: string, context: TypedContext): Typed {
  const { texts } = context;
  const found = findRig('batch', text, context);
  if (found.kind !== 'rig') return found;
  const form = { id: 'mix-batch', about: { rig: found.rig } } as const;
  if (wordsOf(found.rest).length === 0) return { kind: 'open', form };
  const paint = namedCoating(found);
  const scanned = figuresOf('batch', paint.rest, ['thinner', 'a', 'b'], context, true);
  if ('kind' in scanned) return scanned;
  const placed = place('batch', scanned.figures, places, context);
  if (placed.kind !== 'placed') return placed;
  const missing = places.find(({ field, needed }) => needed && placed.values[field] === undefined);
  if (missing)
    return wrong(
      texts.say('chat.missing', {
        what: labelOf(form, missing.field, context),
        example: example('batch', texts),
      }),
    );
  const coating = theCoating(paint.coatings, found, texts);
  if (typeof coating !== 'string') return coating;
  const pot = thePot(scanned.pots, found, texts);
  if (typeof pot !== 'string') return pot;
  return byForm(form, { ...placed.values, coating, pot }, context, placed.typed);
}

/** Coatings of the shift that are named in the text, by id or name, and the text without them. */
function namedCoating({ shift, rest }: RigMeant): {
  readonly coatings: readonly CoatingId[];
  readonly rest: string;
} {
  const words = wordsOf(rest);
  const found = Object.values(shift.day.coatings).flatMap((sheet) =>
    [foldedWords(sheet.name), foldedWords(sheet.id)].flatMap((way) =>
      words.flatMap((word, index) => {
        const last = words[index + way.length - 1];
        const plain = way.length > 1 || (way[0]?.length ?? 0) > 2;
        if (!last || !plain || !standsAt(words, index, way) || !standsApart(rest, word, last)) return [];
        return [{ coating: sheet.id, from: word.from, to: last.to }];
      }),
    ),
  );
  const longest = Math.max(0, ...found.map(({ from, to }) => to - from));
  const [best] = found.filter(({ from, to }) => to - from === longest);
  if (!best) return { coatings: [], rest };
  const here = found.filter(({ from, to }) => from === best.from && to === best.to);
  return {
    coatings: [...new Set(here.map(({ coating }) => coating))],
    rest: withoutMentions(rest, [best]),
  };
}

function theCoating(named: readonly CoatingId[], { shift, rig }: RigMeant, texts: Texts): CoatingId | Wrong {
  const offered = named.length > 0 ? named : offeredOn(shift, rig);
  const [only, other] = offered;
  if (only !== undefined && other === undefined) return only;
  const names = offered.map((id) => own(shift.day.coatings, id)?.name ?? id);
  return wrong(texts.say('chat.which-coating', { rig: nameOf(shift, rig), coatings: names.join(', ') }));
}

/** What the form offers: the paint in the line, or else what the rig's jobs are for. */
function offeredOn(shift: Shift, rig: string): readonly CoatingId[] {
  const state = own(shift.rigs, rig);
  const inside = state?.line?.coating ?? state?.pot?.coating;
  if (inside !== undefined) return [inside];
  const planned = shift.day.entry.jobs.filter((job) => job.rig === rig).map(({ coating }) => coating);
  return planned.length > 0 ? [...new Set(planned)] : Object.keys(shift.day.coatings);
}

/** Over paint in the pot the two answers give two clocks: it is asked, not guessed. An empty pot can only be fresh. */
function thePot(
  said: readonly ('fresh' | 'top')[],
  { shift, rig }: RigMeant,
  texts: Texts,
): 'fresh' | 'on-top' | Wrong {
  const [first] = [...new Set(said)];
  const both = new Set(said).size > 1;
  if (first !== undefined && !both) return first === 'top' ? 'on-top' : 'fresh';
  if (!both && !own(shift.rigs, rig)?.pot) return 'fresh';
  return wrong(
    texts.say('chat.fresh-or-top', {
      rig: nameOf(shift, rig),
      fresh: wordToType('fresh', texts),
      top: wordToType('top', texts),
    }),
  );
}

const nameOf = (shift: Shift, rig: string) => own(shift.day.rigs, rig)?.name ?? rig;
