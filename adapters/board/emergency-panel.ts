import type { Message } from '../../src/message/message.ts';
import type { View } from './parts.ts';
import type { Html } from './render-html.ts';
import { renderMessage } from './render-message.ts';

/** The site pack's emergency details, for when even the emergency page's own panels cannot be made. */
export function emergencyFallback(view: View): Html {
  const { words, pack } = view;
  const { emergency } = pack.site;
  const aider = pack.people.find((person) => person.id === emergency.firstAider);
  const facts = [
    [words.emergencyCall, emergency.call],
    [words.emergencyAddress, emergency.address],
    [words.emergencyHospital, emergency.hospital],
    [words.emergencyFirstAider, aider?.name ?? emergency.firstAider],
    [words.emergencyAssembly, emergency.assembly],
    [words.emergencyEyewash, emergency.eyewash],
  ] as const;
  const message: Message = {
    summary: words.siteDetails,
    tone: 'danger',
    blocks: [
      { kind: 'heading', text: words.siteDetails },
      {
        kind: 'facts',
        facts: facts.map(([label, value]) => ({ label, value: [{ kind: 'strong', text: value }] })),
      },
    ],
  };
  return renderMessage(message, 'p-site-details', view.render('/emergency'));
}

/** Says that the shift's own numbers, for example its pressures, are missing from the page. */
export function shiftUnreadPanel(view: View): Html {
  const message: Message = {
    summary: view.words.shiftUnread,
    tone: 'attention',
    blocks: [],
  };
  return renderMessage(message, 'p-shift-unread', view.render('/emergency'));
}
