/**
 * Text objects, options and confirm dialogs.
 * Limits: comments of @slack/types 3.2.0 (composition-objects), docs.slack.dev/reference/block-kit/composition-objects.
 */
import { dict, list } from '../json.ts';
import { bool, many, type ObjectRule, type Rule, report, shape, str, typed } from './rules.ts';

export const ID = str({ max: 255 });
export const URL_TEXT = str({ max: 3000, pattern: /^https?:\/\/\S+$/ });

export function plain(max: number): Rule {
  return typed({ plain_text: shape({ text: str({ max }) }, { emoji: bool }) }, 'text object');
}

export function mrkdwn(max: number): Rule {
  return typed({ mrkdwn: shape({ text: str({ max }) }, { verbatim: bool }) }, 'text object');
}

export function anyText(max: number): Rule {
  return typed(
    {
      plain_text: shape({ text: str({ max }) }, { emoji: bool }),
      mrkdwn: shape({ text: str({ max }) }, { verbatim: bool }),
    },
    'text object',
  );
}

export const STYLE = str({ oneOf: ['primary', 'danger'] });

/** All four parts, as the reference page asks; @slack/types leaves three of them out for older apps. */
export const CONFIRM = shape(
  { text: anyText(300) },
  { title: plain(100), confirm: plain(30), deny: plain(30), style: STYLE },
);

/** 75 characters: the stricter of the two published numbers (an independent list says 150 for the value). */
function option(words: Rule): Rule {
  return shape({ text: words, value: str({ max: 75 }) }, { description: plain(75) });
}

export const PLAIN_OPTION = option(plain(75));
export const RICH_OPTION = option(anyText(75));
export const OVERFLOW_OPTION = shape(
  { text: plain(75), value: str({ max: 75 }) },
  { description: plain(75), url: URL_TEXT },
);

export const OPTION_GROUP = shape({ label: plain(75), options: many(PLAIN_OPTION, 1, 100) });

/** `initial_option(s)` must be the very option objects offered (@slack/types: "exactly matches"). */
export const initialMatches: ObjectRule = (value, at, walk) => {
  const offered = [
    ...list(value.options),
    ...list(value.option_groups).flatMap((group) => list(dict(group).options)),
  ].map((one) => JSON.stringify(sorted(one)));
  const check = (one: unknown, where: string): void => {
    if (!offered.includes(JSON.stringify(sorted(one)))) {
      report(walk, where, 'one_of_options', null, 'initial option must exactly match one of the options');
    }
  };
  if (value.initial_option !== undefined) check(value.initial_option, `${at}/initial_option`);
  list(value.initial_options).forEach((one, index) => {
    check(one, `${at}/initial_options/${index}`);
  });
};

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, inner]) => [key, sorted(inner)]);
}

export const oneListOfOptions: ObjectRule = (value, at, walk) => {
  const has = value.options !== undefined;
  const grouped = value.option_groups !== undefined;
  if (has && grouped)
    report(walk, at, 'only_one_of', ['options', 'option_groups'], 'give options or option_groups, not both');
  if (!has && !grouped)
    report(walk, `${at}/options`, 'required', 'options', 'missing required field: options');
};

export const focusOnce: ObjectRule = (value, at, walk) => {
  if (value.focus_on_load !== true) return;
  if (walk.focus === null) walk.focus = at;
  else report(walk, `${at}/focus_on_load`, 'unique', walk.focus, 'only one element may have focus_on_load');
};
