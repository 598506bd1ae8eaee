/** No reference to a shift: what a surface remembers may outlive it, and is never a fact of it. `at` is epoch ms. */
export const sql = `
CREATE TABLE surface_memory (
  place INTEGER PRIMARY KEY,
  surface TEXT NOT NULL,
  key TEXT NOT NULL,
  value TEXT NOT NULL,
  at REAL NOT NULL,
  row_sha TEXT NOT NULL,
  UNIQUE (surface, key)
) STRICT;
`;
