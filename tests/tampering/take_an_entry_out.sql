-- fault: 9 chain
-- That the advice was superseded is to be forgotten.
DROP TRIGGER entries_are_never_deleted;
PRAGMA foreign_keys = OFF;
DELETE FROM history WHERE entry = 9;
DELETE FROM entries WHERE sequence = 9;
