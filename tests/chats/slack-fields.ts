import { fieldsIn, startValues } from '../peers/slack/fill.ts';
import { type Dict, isDict, text } from '../peers/slack/json.ts';

/** What stands in each field of a view, by the names that `submit` takes. */
export function fieldsOf(view: Dict): Readonly<Record<string, string>> {
  const values = startValues(view);
  return Object.fromEntries(
    fieldsIn(view).flatMap(({ blockId, actionId }) => {
      const held = values[blockId]?.[actionId] ?? {};
      const one = held.value ?? held.selected_option ?? held.selected_date ?? held.selected_time ?? '';
      const first = isDict(one) ? text(one.value) : text(one);
      return [
        [blockId, first],
        [actionId, first],
      ];
    }),
  );
}
