-- What a ledger holds: entries, and the documents that they name. What follows from them is in derived.sql. The
-- contract is docs/ledger-format.md.

-- Entries are the truth. Nothing but the hash is unique in them beside the number, and not even the hash is
-- declared so: INSERT OR REPLACE deletes the row it collides with, without firing a delete trigger.
CREATE TABLE entries (
  sequence INTEGER PRIMARY KEY,
  at TEXT NOT NULL,
  actor TEXT NOT NULL CHECK (actor <> ''),
  kind TEXT NOT NULL,
  subject TEXT NOT NULL,
  body TEXT NOT NULL,
  previous BLOB NOT NULL CHECK (length(previous) = 32),
  hash BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

CREATE TRIGGER entries_are_never_changed BEFORE UPDATE ON entries
BEGIN SELECT raise(ABORT, 'an entry is never changed'); END;

CREATE TRIGGER entries_are_never_deleted BEFORE DELETE ON entries
BEGIN SELECT raise(ABORT, 'an entry is never deleted'); END;

CREATE TRIGGER entries_are_appended BEFORE INSERT ON entries
WHEN new.sequence IS NOT (SELECT coalesce(max(sequence), 0) + 1 FROM entries)
  OR new.previous IS NOT coalesce((SELECT hash FROM entries ORDER BY sequence DESC LIMIT 1), zeroblob(32))
BEGIN SELECT raise(ABORT, 'only the next entry can be added'); END;

-- Inputs as they came, and the bytes of rulesets. An entry names them by digest, so the chain covers them.
CREATE TABLE documents (
  digest TEXT PRIMARY KEY,
  bytes BLOB NOT NULL
) STRICT;

CREATE TRIGGER documents_are_never_changed BEFORE UPDATE ON documents
BEGIN SELECT raise(ABORT, 'a document is never changed'); END;

CREATE TRIGGER documents_are_never_deleted BEFORE DELETE ON documents
BEGIN SELECT raise(ABORT, 'a document is never deleted'); END;

CREATE TRIGGER documents_are_never_replaced BEFORE INSERT ON documents
WHEN EXISTS (SELECT 1 FROM documents WHERE digest = new.digest)
BEGIN SELECT raise(ABORT, 'a document is never replaced'); END;
