/**
 * Rows carry their own SHA-256 because SQLite checks its pages, not what is written in them.
 * Instants are REAL: epoch ms as JavaScript has them, which may have a fraction.
 */
export const sql = `
PRAGMA application_id = 0x506f7462;

CREATE TABLE shift (
  id TEXT PRIMARY KEY NOT NULL,
  date TEXT NOT NULL,
  status TEXT NOT NULL,
  seq INTEGER NOT NULL,
  head TEXT NOT NULL,
  next_bell REAL,
  snapshot_sha TEXT NOT NULL,
  row_sha TEXT NOT NULL
) STRICT;

CREATE TABLE snapshot (
  shift TEXT PRIMARY KEY NOT NULL REFERENCES shift(id),
  json TEXT NOT NULL
) STRICT;

CREATE TABLE journal (
  shift TEXT NOT NULL REFERENCES shift(id),
  seq INTEGER NOT NULL,
  command_id TEXT NOT NULL,
  previous TEXT NOT NULL,
  hash TEXT NOT NULL,
  json TEXT NOT NULL,
  UNIQUE (shift, seq)
) STRICT;
CREATE INDEX journal_by_command ON journal (shift, command_id);

CREATE TABLE outbox (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  shift TEXT NOT NULL REFERENCES shift(id),
  surface TEXT NOT NULL,
  urgency TEXT NOT NULL,
  queued_at REAL NOT NULL,
  state TEXT NOT NULL,
  attempt INTEGER NOT NULL,
  not_before REAL,
  lease_until REAL,
  possible_repeat INTEGER NOT NULL,
  settled_at REAL,
  last_error TEXT,
  body_sha TEXT NOT NULL,
  row_sha TEXT NOT NULL,
  body TEXT NOT NULL
) STRICT;
CREATE INDEX outbox_unsettled ON outbox (urgency) WHERE state NOT IN ('sent', 'failed');
CREATE INDEX outbox_by_shift ON outbox (shift);
`;
