import { expect } from 'vitest';
import { CHANNEL } from '../slack/crew.ts';
import { type Hands, the } from './hands.ts';
import { inSlack, platforms } from './slack-hands.ts';
import { wholeDay } from './whole-day.ts';

const slackOf = (hands: Hands) => the(platforms.get(hands), 'Slack').slack;

wholeDay(inSlack, {
  record: /2026-06-08.*\.html$/,
  atOnce: false,
  bell: ({ root }) => expect(root).not.toBeNull(),
  // A notice waits inside Slack, in case Potbell itself should fail.
  async withPaint(hands) {
    const slack = slackOf(hands);
    await slack.until(() => slack.scheduled().length === 1);
    const [notice] = slack.scheduled();
    expect(notice?.channel).toBe(CHANNEL);
    expect(notice?.text).toMatch(/^Backstop.*if nobody has confirmed.*10:49.*112/is);
  },
  // And is taken back, more than five minutes before its time.
  async flushed(hands) {
    const slack = slackOf(hands);
    await slack.until(() => slack.scheduled().length === 0);
  },
});
