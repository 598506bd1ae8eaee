import type { Page } from '../../src/message/action.ts';

/**
 * Every word the board itself puts on the screen; all else comes from messages and forms.
 * Plain strings; `{name}` in braces is filled by `fill`. Which braces a string may use is shown in the English set.
 */
export interface BoardWords {
  readonly boardName: string;
  readonly skip: string;
  readonly pagesLabel: string;
  readonly thisScreen: string;
  readonly pageToday: string;
  readonly pageBriefing: string;
  readonly pageSignOff: string;
  readonly pageNotices: string;
  readonly pageRecord: string;
  readonly pageWhy: string;
  readonly pageMore: string;
  readonly pageEmergency: string;
  readonly emergency: string;
  readonly stopWork: string;
  readonly stopWorkHint: string;
  readonly stopNoShift: string;
  readonly footer: string;

  readonly logIn: string;
  readonly logOut: string;
  readonly loggedInAs: string;
  readonly chooseName: string;
  readonly chooseNameHint: string;
  readonly otherName: string;
  readonly pinFor: string;
  readonly pin: string;
  readonly pinWhyAct: string;
  readonly pinWhySign: string;
  readonly pinSend: string;
  readonly pinMissing: string;
  readonly pinWrong: string;
  readonly pinLocked: string;
  readonly pinLockedAll: string;
  readonly unknownPerson: string;
  readonly keypad: string;
  readonly erase: string;

  readonly liveLost: string;
  readonly liveBack: string;
  readonly noScript: string;
  readonly bellsLabel: string;
  readonly bellTest: string;
  readonly bellTested: string;
  readonly bellBlocked: string;
  readonly bellEnable: string;
  readonly bellCannot: string;
  readonly bellRinging: string;
  readonly bellShow: string;
  readonly bellQuiet: string;
  readonly bellQuietNote: string;

  readonly toneGood: string;
  readonly toneAttention: string;
  readonly toneDanger: string;
  readonly stateDone: string;
  readonly stateOpen: string;
  readonly stateNext: string;
  readonly stateSkipped: string;
  readonly stateDefect: string;

  readonly leftDays: string;
  readonly leftHours: string;
  readonly leftMinutes: string;
  readonly leftSoon: string;
  readonly past: string;
  readonly pastNow: string;
  readonly spanDays: string;
  readonly spanHours: string;
  readonly spanMinutes: string;

  readonly formProblems: string;
  readonly formRefused: string;
  readonly optional: string;
  readonly chooseOne: string;
  readonly lower: string;
  readonly raise: string;
  readonly formBack: string;

  readonly oldButtonTitle: string;
  readonly oldButtonText: string;
  readonly noShiftTitle: string;
  readonly noShiftText: string;
  readonly wrongName: string;
  readonly foreignTitle: string;
  readonly foreignText: string;
  readonly tooLargeTitle: string;
  readonly tooLargeText: string;
  readonly notFoundTitle: string;
  readonly notFoundText: string;
  readonly brokenTitle: string;
  readonly brokenText: string;
  readonly damagedTitle: string;
  readonly goToday: string;

  readonly siteDetails: string;
  readonly shiftUnread: string;
  readonly emergencyCall: string;
  readonly emergencyAddress: string;
  readonly emergencyHospital: string;
  readonly emergencyFirstAider: string;
  readonly emergencyAssembly: string;
  readonly emergencyEyewash: string;

  readonly filesTitle: string;
  readonly fileHtml: string;
  readonly fileCsv: string;
  readonly fileJson: string;
  readonly fileMissing: string;
}

/** The English set, for tests and as a pattern for `templates/`. */
export const defaultBoardWords: BoardWords = {
  boardName: 'Potbell',
  skip: 'Skip to the content',
  pagesLabel: 'Pages',
  thisScreen: 'This screen',
  pageToday: 'Today',
  pageBriefing: 'Briefing',
  pageSignOff: 'Sign-off',
  pageNotices: 'Notices',
  pageRecord: 'Record',
  pageWhy: 'Where these figures come from',
  pageMore: 'Everything that can be pressed',
  pageEmergency: 'Emergency',
  emergency: 'Emergency',
  stopWork: 'Stop work',
  stopWorkHint: 'One tap stops the work for everyone. No PIN needed.',
  stopNoShift: 'No shift is posted, so nobody was told. Stop the work yourself and call out to everyone now.',
  footer:
    'Potbell reminds and records. The foreman, the permit, the data sheets, local law and licensed people decide.',

  logIn: 'Log in',
  logOut: 'Log out',
  loggedInAs: 'Here as {name}',
  chooseName: 'Who are you?',
  chooseNameHint: 'Tap your name. Your PIN comes next.',
  otherName: 'Choose another name',
  pinFor: '{name}, your PIN',
  pin: 'PIN',
  pinWhyAct: 'This needs your name. Log in and it goes on by itself.',
  pinWhySign: 'A signature needs your PIN again. Type it and the signature goes on by itself.',
  pinSend: 'Go on',
  pinMissing: 'Type your PIN, digits only.',
  pinWrong: 'This PIN is not right. Nothing was done. Tries left: {left}.',
  pinLocked: 'Too many wrong PINs for {name}. Try again at {time}. Stop work and Emergency need no PIN.',
  pinLockedAll:
    'Too many wrong PINs on this board. Try again at {time}. Stop work and Emergency need no PIN.',
  unknownPerson: 'That name is not on this site’s list. Choose yours.',
  keypad: 'Digits',
  erase: 'Erase',

  liveLost: 'Not live since {time} — the printed times still hold.',
  liveBack: 'Live again.',
  noScript: 'This page reloads every 30 seconds. It cannot ring: keep an eye on it.',
  bellsLabel: 'Bells not yet answered',
  bellTest: 'Test the bell sound',
  bellTested: 'Two tones should sound now. Nothing heard? Turn the volume up.',
  bellBlocked: 'No sound: the browser waits for a tap on this screen.',
  bellEnable: 'Bell is silent: turn on',
  bellCannot: 'This browser cannot play the bell. Keep an eye on the page.',
  bellRinging: 'Bell',
  bellShow: 'Show it',
  bellQuiet: 'Quiet here',
  bellQuietNote: 'It stays open until someone answers it.',

  toneGood: 'Noted',
  toneAttention: 'Attention',
  toneDanger: 'Danger',
  stateDone: 'Done',
  stateOpen: 'Open',
  stateNext: 'Next',
  stateSkipped: 'Skipped',
  stateDefect: 'Defect',

  leftDays: '{d} d {h} h left',
  leftHours: '{h} h {min} min left',
  leftMinutes: '{min} min left',
  leftSoon: 'under 1 min left',
  past: 'passed {span} ago',
  pastNow: 'passed just now',
  spanDays: '{d} d {h} h',
  spanHours: '{h} h {min} min',
  spanMinutes: '{min} min',

  formProblems: 'Not sent yet. Mend this first:',
  formRefused: 'Not taken. Nothing was changed.',
  optional: 'optional',
  chooseOne: 'Choose',
  lower: 'Lower {label}',
  raise: 'Raise {label}',
  formBack: 'Back without sending',

  oldButtonTitle: 'This button is from an old page',
  oldButtonText: 'Nothing was done. Open the page again and press there.',
  noShiftTitle: 'No shift is posted',
  noShiftText: 'Nothing was done. The foreman posts the day first.',
  wrongName:
    'The board does not answer under the name "{host}". Nothing was done. Open it by its address, with digits, or let whoever runs it add this name to its host names.',
  foreignTitle: 'This did not come from the board’s own page',
  foreignText: 'Nothing was done. Open the board in this browser and press there.',
  tooLargeTitle: 'Too much text',
  tooLargeText: 'Nothing was done. Go back and shorten what you typed.',
  notFoundTitle: 'There is no such page',
  notFoundText: 'The address may be from an older board.',
  brokenTitle: 'The board has a fault',
  brokenText:
    'It is not known whether your last press was noted: look on the page before you press again. The printed times still hold. Fault number for the foreman: {ref}',
  damagedTitle: 'The stored shift cannot be read',
  goToday: 'Go to Today',

  siteDetails: 'This site',
  shiftUnread:
    'The shift cannot be read just now. Today’s own figures, for example pressures, are missing here.',
  emergencyCall: 'Call',
  emergencyAddress: 'Send them to',
  emergencyHospital: 'Hospital',
  emergencyFirstAider: 'First aider',
  emergencyAssembly: 'Assembly point',
  emergencyEyewash: 'Eyewash',

  filesTitle: 'Record files',
  fileHtml: 'Page to print',
  fileCsv: 'Table (CSV)',
  fileJson: 'Data (JSON)',
  fileMissing: 'There is no record for this shift.',
};

/** Fill `{name}` places. A place without a value stays visible: a missing number must be seen, not vanish. */
export function fill(text: string, values: Readonly<Record<string, string | number>>): string {
  return text.replace(/\{(\w+)\}/g, (place, name: string) => {
    const value = values[name];
    return value === undefined ? place : String(value);
  });
}

export const pageWords = {
  today: 'pageToday',
  briefing: 'pageBriefing',
  'sign-off': 'pageSignOff',
  emergency: 'pageEmergency',
  record: 'pageRecord',
  notices: 'pageNotices',
  why: 'pageWhy',
  more: 'pageMore',
} as const satisfies Record<Page, keyof BoardWords>;
