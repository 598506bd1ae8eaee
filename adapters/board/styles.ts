import { baseStyle } from './look/base.ts';
import { formStyle } from './look/forms.ts';
import { frameStyle } from './look/frame.ts';
import { panelStyle } from './look/panels.ts';
import { printStyle } from './look/print.ts';
import { timelineStyle } from './look/timeline.ts';

/** The one style sheet of every page. Logical properties throughout, so that right-to-left needs nothing of its own. */
export const styles: string = [baseStyle, frameStyle, panelStyle, formStyle, timelineStyle, printStyle].join(
  '\n',
);
