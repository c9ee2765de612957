-- Derived tables. They follow from the entries alone, are written in the same transaction, and can be rebuilt: a
-- ledger with tables of an earlier version gets these when it is next opened. `entry` is the number of the entry
-- that last wrote the row.

-- `survivor` is the person who stands for this one: itself, or the one it was merged into. `identifiers` and
-- `status` are of all that were merged into it; `own_identifiers` and `own_status` of this number alone.

CREATE TABLE people (
  person TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  birth_date TEXT NOT NULL,
  sex TEXT NOT NULL,
  identifiers TEXT NOT NULL,
  needs TEXT NOT NULL,
  status TEXT NOT NULL,
  own_identifiers TEXT NOT NULL,
  own_status TEXT NOT NULL,
  survivor TEXT NOT NULL,
  merged_into TEXT NOT NULL,
  merge INTEGER REFERENCES entries,
  described INTEGER NOT NULL REFERENCES entries,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;

CREATE INDEX people_gone ON people (person) WHERE status <> '';
CREATE INDEX people_by_birth_date ON people (birth_date) WHERE birth_date <> '' AND merged_into = '';
CREATE INDEX people_merged ON people (survivor) WHERE merged_into <> '';

-- People who look alike and are two, as a person said: they are not proposed again. The lesser number first.
CREATE TABLE told_apart (
  person TEXT NOT NULL REFERENCES people,
  other TEXT NOT NULL REFERENCES people,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (person, other)
) STRICT, WITHOUT ROWID;

-- Who has an identifier: the number that it came with, whatever that was merged into.

CREATE TABLE identifiers (
  value TEXT NOT NULL,
  system TEXT NOT NULL,
  person TEXT NOT NULL REFERENCES people,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (value, system)
) STRICT, WITHOUT ROWID;

-- Which entries are about a person, and about those who were merged into it. `own` is 1 where the entry is about
-- this very number, so that it stays when a merge is reversed.
CREATE TABLE history (
  person TEXT NOT NULL REFERENCES people,
  entry INTEGER NOT NULL REFERENCES entries,
  own INTEGER NOT NULL CHECK (own IN (0, 1)),
  PRIMARY KEY (person, entry)
) STRICT, WITHOUT ROWID;

-- `person` is the survivor of `recorded_for`, the number whose identifiers the record had. `signed` is the entry
-- that gave the outcome that stands, null when there is none.
CREATE TABLE examinations (
  exam TEXT PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people,
  recorded_for TEXT NOT NULL REFERENCES people,
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
  signed INTEGER REFERENCES entries,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;

CREATE INDEX examinations_of_person ON examinations (person, date);
CREATE INDEX examinations_recorded_for ON examinations (recorded_for);
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

-- Histology that came as a result, apart from the record. `null` when it was withdrawn.
CREATE TABLE histologies (
  exam TEXT NOT NULL REFERENCES examinations,
  lesion TEXT NOT NULL,
  histology TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (exam, lesion)
) STRICT, WITHOUT ROWID;

-- `signed` is the entry of the signature, `later_steps` what the plan has after this recall, `counted_from` the
-- event and the day that its first step counts from, `follows` the recall of the step before. `attempts` counts
-- the invitations since the recall was last opened, `invited` is the entry of the last one and `means` how it was
-- made; `owner` has to act when nobody answers. `age_at_due` is in completed years, null when the birth date is
-- not known. `lane` puts those together that a list can read in the order of their due dates (database/lane.h).
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
  signed INTEGER REFERENCES entries,
  later_steps TEXT NOT NULL,
  counted_from TEXT NOT NULL,
  follows INTEGER REFERENCES recalls,
  answered_by TEXT NOT NULL,
  attempts INTEGER NOT NULL,
  last_attempt TEXT NOT NULL,
  invited INTEGER REFERENCES entries,
  means TEXT NOT NULL,
  owner TEXT NOT NULL,
  vetted_by TEXT NOT NULL,
  vetted_on TEXT NOT NULL,
  vetted_result TEXT NOT NULL,
  age_at_due INTEGER,
  lane INTEGER NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT;

CREATE INDEX recalls_by_lane ON recalls (lane, due, interval_days, late_on) WHERE open = 1;
CREATE INDEX recalls_handed_over ON recalls (number) WHERE state = 'handed over';
CREATE INDEX recalls_of_person ON recalls (person);
CREATE INDEX recalls_of_examination ON recalls (exam);
CREATE INDEX recalls_by_advice ON recalls (advice);
CREATE INDEX recalls_by_age ON recalls (age_at_due)
  WHERE open = 1 AND action = 'surveillance colonoscopy' AND vetted_on = '';
CREATE INDEX recalls_without_reply ON recalls (number) WHERE open = 1 AND attempts >= 5;
CREATE INDEX recalls_invited ON recalls (number) WHERE state IN ('invited', 'no reply');

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

-- The unit's protocol, from a day on. The one in force on a day is that of the latest `from_day`; of several of
-- one day, the one adopted last.
CREATE TABLE protocols (
  entry INTEGER PRIMARY KEY REFERENCES entries,
  from_day TEXT NOT NULL,
  content TEXT NOT NULL
) STRICT;

-- Accounts of the operating system, and what their holders may do.
CREATE TABLE accounts (
  account TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  role TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries
) STRICT, WITHOUT ROWID;

-- Letters that went out, with what they said, or that were withheld: then `withheld` says why and there is no
-- document, and `gone` is what was noted of the person then, as in `people.status`. `tells` is the entry that the
-- letter was made from, null when it was made elsewhere. `another_because` is empty as long as it is right. One that
-- replaces it takes its place.
CREATE TABLE letters (
  exam TEXT NOT NULL REFERENCES examinations,
  letter TEXT NOT NULL,
  recipient TEXT NOT NULL,
  action TEXT NOT NULL,
  due TEXT NOT NULL,
  advice INTEGER REFERENCES entries,
  tells INTEGER REFERENCES entries,
  document TEXT REFERENCES documents,
  withheld TEXT NOT NULL,
  gone TEXT NOT NULL,
  issued INTEGER NOT NULL REFERENCES entries,
  issued_on TEXT NOT NULL,
  another_because TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries,
  PRIMARY KEY (exam, letter, recipient)
) STRICT, WITHOUT ROWID;

CREATE INDEX letters_of_advice ON letters (advice);
CREATE INDEX letters_to_send_again ON letters (exam) WHERE another_because <> '';

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
