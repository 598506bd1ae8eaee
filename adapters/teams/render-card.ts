/** The platform's own shapes, as far as our cards use them (Adaptive Cards 1.5). */
export type Color = 'Default' | 'Good' | 'Warning' | 'Attention';
export type Style = 'default' | 'emphasis' | 'good' | 'warning' | 'attention';

interface ElementBase {
  readonly spacing?: 'None' | 'Small' | 'Medium' | 'Large';
  /** A line above the element. */
  readonly separator?: boolean;
}

export interface TextRun {
  readonly type: 'TextRun';
  readonly text: string;
  readonly weight?: 'Bolder';
  readonly color?: Color;
}

interface InputBase extends ElementBase {
  readonly id: string;
  readonly label: string;
  readonly isRequired: boolean;
  readonly errorMessage?: string;
  readonly value?: string;
}

export type CardInput =
  | (InputBase & { readonly type: 'Input.Text'; readonly isMultiline: boolean })
  | (InputBase & { readonly type: 'Input.Date' | 'Input.Time' })
  | (InputBase & {
      readonly type: 'Input.ChoiceSet';
      readonly isMultiSelect: boolean;
      readonly style: 'expanded' | 'compact';
      readonly wrap: true;
      readonly placeholder?: string;
      readonly choices: readonly { readonly title: string; readonly value: string }[];
    });

export type CardElement =
  | (ElementBase & {
      readonly type: 'TextBlock';
      readonly text: string;
      readonly wrap: true;
      readonly style?: 'heading';
      readonly size?: 'Medium' | 'Large';
      readonly weight?: 'Bolder';
      readonly color?: Color;
    })
  | (ElementBase & {
      readonly type: 'RichTextBlock';
      /** A text alone is a run without looks: a briefing has hundreds, and a card holds only so much. */
      readonly inlines: readonly (string | TextRun)[];
    })
  | (ElementBase & {
      readonly type: 'FactSet';
      readonly facts: readonly { readonly title: string; readonly value: string }[];
    })
  | (ElementBase & {
      readonly type: 'Container';
      readonly id?: string;
      readonly isVisible?: false;
      readonly style?: Style;
      readonly items: readonly CardElement[];
    })
  | (ElementBase & { readonly type: 'ActionSet'; readonly actions: readonly CardAction[] })
  | CardInput;

/** What comes back with a press, the same by either kind of action. */
export type ActionData = Readonly<Record<string, string>>;

/** Without `msteams` it is sent as it is; with it the platform asks the bot for a dialog. */
export type SubmitData = Readonly<Record<string, string | { readonly type: 'task/fetch' }>>;

interface ActionBase {
  readonly title: string;
  readonly style?: 'positive' | 'destructive';
}

/** Without this, an action takes what stands in the inputs with it, and is held back while a required one is empty. */
interface Sends {
  readonly data: ActionData;
  readonly associatedInputs?: 'none';
}

export type CardAction =
  | (ActionBase & {
      readonly type: 'Action.Execute';
      readonly verb: string;
      readonly fallback: ActionBase & Sends & { readonly type: 'Action.Submit' };
    } & Sends)
  | (ActionBase &
      Pick<Sends, 'associatedInputs'> & { readonly type: 'Action.Submit'; readonly data: SubmitData })
  | (ActionBase & { readonly type: 'Action.ToggleVisibility'; readonly targetElements: readonly string[] });

/** Somebody the platform tells; `text` is what stands for them in a text of the card. */
export interface Mention {
  readonly type: 'mention';
  readonly text: string;
  readonly mentioned: { readonly id: string; readonly name: string };
}

/** What the platform asks for by itself when the card comes into sight of one of `userIds` (29:…), 60 at most. */
export interface Refresh {
  readonly action: {
    readonly type: 'Action.Execute';
    readonly title: string;
    readonly verb: string;
    readonly data: ActionData;
  };
  readonly userIds: readonly string[];
}

export interface Card {
  readonly type: 'AdaptiveCard';
  readonly $schema: string;
  readonly version: string;
  /** Shown where the card cannot be. */
  readonly fallbackText: string;
  readonly refresh?: Refresh;
  readonly body: readonly CardElement[];
  readonly msteams: { readonly width: 'Full'; readonly entities?: readonly Mention[] };
}

/** An activity with nothing but the card: beside a text it would become two messages, and no id would come back. */
export const activityOf = ({ summary, card }: { readonly summary: string; readonly card: Card }) => ({
  type: 'message',
  summary,
  attachments: [{ contentType: 'application/vnd.microsoft.card.adaptive', content: card }],
});

/** Characters of an activity as JSON. */
export const activitySize = (part: { readonly summary: string; readonly card: Card }): number =>
  JSON.stringify(activityOf(part)).length;
