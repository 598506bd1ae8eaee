/** Rich text blocks: shapes of @slack/types 3.2.0 (block-elements, "RichText…"). */
import { anything, bool, int, many, type Rule, shape, str, typed } from './rules.ts';

const STYLE = { style: shape({}, { bold: bool, code: bool, italic: bool, strike: bool, underline: bool }) };
const MANY = 1000;

const INLINE: Rule = typed(
  {
    text: shape({ text: str() }, STYLE),
    link: shape({ url: str({ max: 3000 }) }, { text: str(), unsafe: bool, ...STYLE }),
    user: shape({ user_id: str() }, STYLE),
    usergroup: shape({ usergroup_id: str() }, STYLE),
    channel: shape({ channel_id: str() }, STYLE),
    team: shape({ team_id: str() }, STYLE),
    emoji: shape({ name: str() }, { unicode: str(), url: str(), ...STYLE }),
    broadcast: shape({ range: str({ oneOf: ['here', 'channel', 'everyone'] }) }, STYLE),
    color: shape({ value: str() }, STYLE),
    date: shape({ timestamp: anything, format: str() }, { url: str(), fallback: str(), ...STYLE }),
  },
  'rich text element',
);

const LINES = many(INLINE, 0, MANY);
const BORDER = { border: int(0, 1) };
const SECTION = typed({ rich_text_section: shape({ elements: LINES }) }, 'rich text');

const PART: Rule = typed(
  {
    rich_text_section: shape({ elements: LINES }),
    rich_text_quote: shape({ elements: LINES }, BORDER),
    rich_text_preformatted: shape({ elements: LINES }, BORDER),
    rich_text_list: shape(
      { elements: many(SECTION, 1, MANY), style: str({ oneOf: ['bullet', 'ordered'] }) },
      { indent: int(0, 8), offset: int(0, MANY), ...BORDER },
    ),
  },
  'rich text',
);

export const RICH_TEXT_ELEMENTS = many(PART, 1, MANY);
export const RICH_TEXT: Rule = typed(
  { rich_text: shape({ elements: RICH_TEXT_ELEMENTS }, { block_id: str({ max: 255 }) }) },
  'block',
);
