import type { Page } from '../../src/message/action.ts';
import type { Form } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import type { Visit } from './visit.ts';

/**
 * How one person is shown what came of what they did. A platform makes one for each press, line and form. None of these
 * throws for what platform or network do: what could not be shown is logged.
 */
export interface Showing {
  /** The same for a redelivery of the same press, another for every other press. */
  readonly pressId: string;
  /** The message that was pressed in; null for a press anywhere else. */
  readonly pressedIn: { readonly channel: string; readonly id: string } | null;
  /** False: no form can be opened from here, a button that opens it is offered instead. */
  readonly opensForms: boolean;
  /** Whether `tell` says it in their own conversation. */
  readonly tellsDirectly: boolean;
  /** Where they look, for them alone. */
  tell(visit: Visit, message: Message): Promise<void>;
  /** In their own conversation with Potbell. */
  directly(visit: Visit, message: Message): Promise<void>;
  /** Over what they look at. False when it could not be. */
  openForm(visit: Visit, form: Form): Promise<boolean>;
  /** Over what they look at, or where there is room for it. */
  openPage(visit: Visit, page: Page, message: Message): Promise<void>;
  /** The message that was pressed in, changed at once. False when it could not be. */
  replace(visit: Visit, message: Message): Promise<boolean>;
  /** A file, for them alone. */
  sendFile(visit: Visit, file: { readonly body: string; readonly fileName: string }): Promise<void>;
}
