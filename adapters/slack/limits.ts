/** How much of something the chat platform takes, and where that stands. */
export interface Limit {
  readonly most: number;
  readonly source: string;
}

const blocksPage = 'docs.slack.dev/reference/block-kit/blocks';
const typesOf = (name: string) => `comment in @slack/types 3.2.0, ${name}`;

/** Characters are counted as JavaScript counts them (UTF-16 units): never fewer than the platform counts. */
export const limits = {
  blocksInMessage: { most: 50, source: blocksPage },
  blocksInModal: { most: 100, source: `${blocksPage}; ${typesOf('BaseView.blocks')}` },
  sectionText: { most: 3000, source: typesOf('SectionBlock.text') },
  headerText: { most: 150, source: typesOf('HeaderBlock.text') },
  contextElements: { most: 10, source: typesOf('ContextBlock.elements') },
  actionsElements: { most: 25, source: typesOf('ActionsBlock.elements') },
  blockId: { most: 255, source: typesOf('Block.block_id') },
  actionId: { most: 255, source: `${blocksPage} (action_id)` },
  buttonText: { most: 75, source: typesOf('Button.text') },
  buttonValue: { most: 2000, source: typesOf('Button.value') },
  radioOptions: { most: 10, source: typesOf('RadioButtons.options') },
  checkboxOptions: { most: 10, source: typesOf('Checkboxes.options') },
  selectOptions: { most: 100, source: typesOf('StaticSelect.options') },
  optionGroups: { most: 100, source: typesOf('StaticSelect.option_groups') },
  optionGroupLabel: { most: 75, source: typesOf('OptionGroup.label') },
  optionText: { most: 75, source: typesOf('PlainTextOption.text') },
  /** Other lists say 150; the smaller figure holds for both. */
  optionValue: { most: 75, source: typesOf('OptionDescriptor.value') },
  placeholder: { most: 150, source: 'docs.slack.dev/reference/block-kit/block-elements (placeholder)' },
  inputLabel: { most: 2000, source: typesOf('InputBlock.label') },
  inputHint: { most: 2000, source: typesOf('InputBlock.hint') },
  inputText: { most: 3000, source: typesOf('PlainTextInput.min_length, max_length') },
  modalTitle: { most: 24, source: typesOf('ModalView.title') },
  modalSubmit: { most: 24, source: typesOf('ModalView.submit') },
  modalClose: { most: 24, source: typesOf('ModalView.close') },
  callbackId: { most: 255, source: typesOf('BaseView.callback_id') },
  privateMetadata: { most: 3000, source: typesOf('BaseView.private_metadata') },
  /** Bytes. The reference says 250 KB; the smaller kilobyte is taken. */
  viewBytes: { most: 250_000, source: 'docs.slack.dev/reference/methods/views.open (view_too_large)' },
  /** A new message may be ten times as long, but then it could never be updated. */
  messageText: { most: 4000, source: 'docs.slack.dev/reference/methods/chat.update (msg_too_long)' },
  /** All blocks of a message as JSON. The error msg_blocks_too_long exists, its figure is not published. */
  messageBlocks: { most: 12_000, source: 'from memory: what a whole payload of a markdown block may hold' },
} as const satisfies Record<string, Limit>;
