-- The tables of a ledger. The contract is docs/ledger-format.md.

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

-- From here on: derived tables. They follow from the entries alone, are written in the same transaction, and
-- can be rebuilt. `entry` is the number of the entry that last wrote the row.

CREATE TABLE people (
  person TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  birth_date TEXT NOT NULL,
  sex TEXT NOT NULL,
  identifiers TEXT NOT NULL,
  needs TEXT NOT NULL,
  status TEXT NOT NULL,
  described INTEGER NOT NULL REFERENCES entries,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;

CREATE INDEX people_gone ON people (person) WHERE status <> '';

CREATE TABLE identifiers (
  value TEXT NOT NULL,
  system TEXT NOT NULL,
  person TEXT NOT NULL REFERENCES people,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (value, system)
) STRICT, WITHOUT ROWID;

-- Which entries are about a person.
CREATE TABLE history (
  person TEXT NOT NULL REFERENCES people,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (person, entry)
) STRICT, WITHOUT ROWID;

CREATE TABLE examinations (
  exam TEXT PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people,
  date TEXT NOT NULL,
  place TEXT NOT NULL,
  endoscopist TEXT NOT NULL,
  findings TEXT NOT NULL,
  recorded INTEGER NOT NULL REFERENCES entries,
  awaited INTEGER NOT NULL,
  since TEXT NOT NULL,
  advice INTEGER REFERENCES entries,
  advice_state TEXT NOT NULL,
  reason TEXT NOT NULL,
  risk INTEGER NOT NULL,
  earliest TEXT NOT NULL,
  earliest_site_check TEXT NOT NULL,
  outcome TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;

CREATE INDEX examinations_of_person ON examinations (person, date);
CREATE INDEX examinations_without_outcome ON examinations (risk, date) WHERE outcome = '';
CREATE INDEX examinations_awaiting ON examinations (since) WHERE awaited > 0;

-- The contents in which an examination was recorded: the same one again changes nothing.
CREATE TABLE versions (
  exam TEXT NOT NULL REFERENCES examinations,
  content TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (exam, content)
) STRICT, WITHOUT ROWID;

-- Pots, and how many lesion entries in each await histology. Lesions that name no pot stand under ''.
CREATE TABLE pots (
  exam TEXT NOT NULL REFERENCES examinations,
  specimen TEXT NOT NULL,
  accession TEXT NOT NULL,
  sent TEXT NOT NULL,
  awaited INTEGER NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (exam, specimen)
) STRICT, WITHOUT ROWID;

CREATE INDEX pots_by_accession ON pots (accession) WHERE accession <> '';

-- Histology that came as a result, apart from the record.
CREATE TABLE histologies (
  exam TEXT NOT NULL REFERENCES examinations,
  lesion TEXT NOT NULL,
  histology TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (exam, lesion)
) STRICT, WITHOUT ROWID;

CREATE TABLE recalls (
  number INTEGER PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people,
  exam TEXT NOT NULL REFERENCES examinations,
  advice INTEGER NOT NULL REFERENCES entries,
  action TEXT NOT NULL,
  ruleset TEXT NOT NULL,
  rule TEXT NOT NULL,
  clinician TEXT NOT NULL,
  risk INTEGER NOT NULL,
  state TEXT NOT NULL,
  open INTEGER NOT NULL CHECK (open IN (0, 1)),
  due TEXT NOT NULL,
  due_to TEXT NOT NULL,
  late_on TEXT NOT NULL,
  interval_days INTEGER NOT NULL CHECK (interval_days > 0),
  under_review INTEGER NOT NULL CHECK (under_review IN (0, 1)),
  entry INTEGER NOT NULL REFERENCES entries
) STRICT;

CREATE INDEX recalls_by_due ON recalls (due) WHERE open = 1;
CREATE INDEX recalls_by_late_date ON recalls (late_on) WHERE open = 1;
CREATE INDEX recalls_handed_over ON recalls (number) WHERE state = 'handed over';
CREATE INDEX recalls_of_person ON recalls (person);
CREATE INDEX recalls_of_examination ON recalls (exam);

-- Days on which a person could not be examined: they do not count towards being late.
-- The key's columns stand first: else the integrity check of SQLite 3.40 finds a NULL that is not there.
CREATE TABLE not_ready (
  recall INTEGER NOT NULL REFERENCES recalls,
  entry INTEGER NOT NULL REFERENCES entries,
  first TEXT NOT NULL,
  last TEXT NOT NULL,
  PRIMARY KEY (recall, entry)
) STRICT, WITHOUT ROWID;

CREATE TABLE rulesets (
  digest TEXT PRIMARY KEY,
  ruleset TEXT NOT NULL,
  edition TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;

-- Inputs that wait for a person.
CREATE TABLE inputs (
  entry INTEGER PRIMARY KEY REFERENCES entries,
  document TEXT NOT NULL REFERENCES documents,
  kind TEXT NOT NULL,
  source TEXT NOT NULL,
  line INTEGER NOT NULL,
  reason TEXT NOT NULL
) STRICT;

CREATE INDEX inputs_by_document ON inputs (document);
