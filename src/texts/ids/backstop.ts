/** The notice that waits inside the chat service, and what people hear about it. */
export const backstopIds = {
  'backstop.notice': ['ref', 'rig', 'by', 'deadAt', 'call'],
  'backstop.many': ['ref', 'rigs', 'call'],
  'backstop.many-rig': ['rig', 'by', 'deadAt'],
  'backstop.confirmed': ['ref', 'rigs'],
  'backstop.confirmed-rig': ['rig', 'time', 'person'],
  'backstop.trouble-waiting': ['ref', 'rig', 'by', 'why'],
  'backstop.trouble-refused': ['ref', 'rig', 'by', 'why'],
  'backstop.too-late': [],
  'backstop.state.wanted': [],
  'backstop.state.armed': [],
  'backstop.state.cancel_requested': [],
  'backstop.state.cancelled': [],
  'backstop.state.cancel_uncertain': [],
  'backstop.state.fired': [],
  'backstop.state.refused': [],
} as const;
