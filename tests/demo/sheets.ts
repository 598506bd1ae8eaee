import { loadTexts } from '../../adapters/files/load-texts.ts';
import { buildForm } from '../../src/forms/forms.ts';
import type { FormRef } from '../../src/message/action.ts';
import type { FormId } from '../../src/message/form-ids.ts';
import type { Block } from '../../src/message/message.ts';
import type { Person } from '../../src/model/site.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { type Stage, shiftOf } from './stage.ts';

const { textsFor } = loadTexts();

const refsIn = (blocks: readonly Block[]): readonly FormRef[] =>
  blocks.flatMap((block) => {
    if (block.kind === 'more' || block.kind === 'below') return refsIn(block.blocks);
    if (block.kind !== 'buttons') return [];
    return block.buttons.flatMap(({ action }) => (action.kind === 'open' ? [action.form] : []));
  });

/**
 * More sheets as they would open now, about what the buttons of the day's page are about, or about this rig. One that
 * cannot be opened now is an error.
 */
export async function sheets(stage: Stage, viewer: string, rig: string, ids: readonly FormId[]) {
  const { crew, watch } = stage;
  // Somebody who is not on the list yet, for the sheet that puts people on it.
  const late: Person = { id: 'vera', name: 'Vera', roles: ['helper'], language: 'en', hasPhone: true };
  const pack = { ...crew.site.pack, people: [...crew.site.pack.people, late] };
  const person = pack.people.find(({ id }) => id === viewer);
  const texts = textsFor(person?.language ?? pack.site.language);
  const shift = await shiftOf(crew);
  const now = stage.now();
  const offered = pagePanels('today', { pack, shift, now, texts, viewer }).flatMap(({ message }) =>
    refsIn(message.blocks),
  );
  for (const id of ids) {
    const fits = offered.filter((one) => one.id === id);
    const ref = fits.find(({ about }) => about.rig === rig) ?? fits[0] ?? { id, about: { rig } };
    const built = buildForm(ref, { pack, shift, previous: null, now, texts, viewer });
    if (!built.ok) throw new Error(`The sheet "${ref.id}" does not open now: ${built.shown.summary}`);
    const language = texts.language === 'en' ? '' : `-${texts.language}`;
    const name = (step: number) => `sheet-${ref.id}${step === 1 ? '' : `-${step}`}${language}`;
    watch.sheet(built.form, name, person?.name ?? viewer, { pack, texts });
  }
}
