import { expect, test } from 'vitest';
import { limits } from '../../adapters/slack/limits.ts';

test('the limits are those of the reference of the platform', () => {
  const figures = Object.fromEntries(Object.entries(limits).map(([name, { most }]) => [name, most]));
  // Source: docs.slack.dev/reference/block-kit, docs.slack.dev/reference/methods/chat.update and the comments in
  // @slack/types 3.2.0; messageBlocks from memory.
  expect(figures).toEqual({
    blocksInMessage: 50,
    blocksInModal: 100,
    sectionText: 3000,
    headerText: 150,
    contextElements: 10,
    actionsElements: 25,
    blockId: 255,
    actionId: 255,
    buttonText: 75,
    buttonValue: 2000,
    radioOptions: 10,
    checkboxOptions: 10,
    selectOptions: 100,
    optionGroups: 100,
    optionGroupLabel: 75,
    optionText: 75,
    optionValue: 75,
    placeholder: 150,
    inputLabel: 2000,
    inputHint: 2000,
    inputText: 3000,
    modalTitle: 24,
    modalSubmit: 24,
    modalClose: 24,
    callbackId: 255,
    privateMetadata: 3000,
    viewBytes: 250_000,
    messageText: 4000,
    messageBlocks: 12_000,
  });
});

test('each limit says where it stands', () => {
  for (const { source } of Object.values(limits))
    expect(source).toMatch(/docs\.slack\.dev|@slack\/types|from memory/);
});
