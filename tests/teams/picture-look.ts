/**
 * A look for cards that is near to what the platform does with them and our own: names and shape of the settings are those
 * of the public host config schema (adaptivecards.io/schemas/host-config.json); sizes and colours are rounded guesses from
 * memory, not taken from any shipped file.
 */
export type Theme = 'light' | 'dark';

interface Palette {
  readonly page: string;
  readonly card: string;
  readonly text: string;
  readonly quiet: string;
  readonly line: string;
  readonly good: string;
  readonly warning: string;
  readonly attention: string;
  readonly accent: string;
  readonly onAccent: string;
  readonly field: string;
  readonly styled: Readonly<Record<'emphasis' | 'good' | 'warning' | 'attention', string>>;
}

export const palettes: Readonly<Record<Theme, Palette>> = {
  light: {
    page: '#f4f4f4',
    card: '#ffffff',
    text: '#222222',
    quiet: '#5c5c5c',
    line: '#d0d0d0',
    good: '#1e6b1e',
    warning: '#7a4b00',
    attention: '#a8202b',
    accent: '#4a4fa8',
    onAccent: '#ffffff',
    field: '#ffffff',
    styled: { emphasis: '#f0f0f0', good: '#e8f3e4', warning: '#fbf2d9', attention: '#fbe9ea' },
  },
  dark: {
    page: '#1a1a1a',
    card: '#282828',
    text: '#f2f2f2',
    quiet: '#b4b4b4',
    line: '#565656',
    good: '#93c98a',
    warning: '#f4c65a',
    attention: '#f59aa0',
    accent: '#7b80d6',
    onAccent: '#101010',
    field: '#1f1f1f',
    styled: { emphasis: '#353535', good: '#203320', warning: '#3f3314', attention: '#472427' },
  },
};

const family = "'Liberation Sans',Arial,sans-serif";

/** Settings for the official renderer. */
export function hostConfig(theme: Theme): object {
  const { card, text, quiet, line, good, warning, attention, accent, styled } = palettes[theme];
  const colour = (shade: string) => ({ default: shade, subtle: shade });
  const style = (backgroundColor: string) => ({
    backgroundColor,
    foregroundColors: {
      default: { default: text, subtle: quiet },
      good: colour(good),
      warning: colour(warning),
      attention: colour(attention),
      accent: colour(accent),
    },
  });
  return {
    supportsInteractivity: true,
    fontFamily: family,
    fontSizes: { small: 12, default: 14, medium: 16, large: 18, extraLarge: 24 },
    fontWeights: { lighter: 300, default: 400, bolder: 600 },
    lineHeights: { small: 16, default: 20, medium: 22, large: 25, extraLarge: 32 },
    spacing: { small: 6, default: 8, medium: 14, large: 18, extraLarge: 24, padding: 14 },
    separator: { lineThickness: 1, lineColor: line },
    containerStyles: {
      default: style(card),
      emphasis: style(styled.emphasis),
      good: style(styled.good),
      warning: style(styled.warning),
      attention: style(styled.attention),
    },
    // As the renderer has it by itself: one row that does not break. What fits so fits a row that breaks as well.
    actions: {
      maxActions: 6,
      spacing: 'default',
      buttonSpacing: 8,
      actionsOrientation: 'horizontal',
      actionAlignment: 'left',
    },
    factSet: {
      title: { weight: 'bolder', wrap: true, maxWidth: 150 },
      value: { wrap: true },
      spacing: 12,
    },
    textStyles: { heading: { size: 'default', weight: 'bolder' } },
    inputs: {
      label: { requiredInputs: { suffix: ' *', suffixColor: 'attention' }, inputSpacing: 'small' },
      errorMessage: { color: 'attention', weight: 'bolder' },
    },
  };
}

/** Buttons, fields and the frame around a card, which the host config does not reach. */
export function ownStyle(theme: Theme): string {
  const { page, card, text, quiet, line, attention, accent, onAccent, field } = palettes[theme];
  const font = `14px/20px ${family}`;
  // Letters of the test browser are wider than those of phones (from memory): 13 px of them for 14.
  return `
*{box-sizing:border-box} body{margin:0;padding:12px;background:${page};color:${text};font:${font}}
.slot{background:${card};border:1px solid ${line};border-radius:4px;overflow:hidden}
.ac-pushButton{font:600 13px/20px ${family};padding:5px 10px;border-radius:4px;border:1px solid ${line};background:${card};color:${text}}
.ac-pushButton.style-positive{background:${accent};border-color:${accent};color:${onAccent}}
.ac-pushButton.style-destructive{background:${card};border-color:${attention};color:${attention}}
.ac-input{font:${font};color:${text}}
.ac-textInput,.ac-dateInput,.ac-timeInput,.ac-multichoiceInput.ac-choiceSetInput-compact
{width:100%;padding:6px;background:${field};border:1px solid ${line};border-radius:4px;color-scheme:${theme}}
.caption{margin:0 0 4px;color:${quiet};font-size:12px}`;
}
