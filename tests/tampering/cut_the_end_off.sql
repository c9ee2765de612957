-- fault: 11 checkpoint
-- The recall was never opened. The shorter chain is sound in itself, and so are its tables: only the checkpoint
-- that was kept elsewhere shows it.
DROP TRIGGER entries_are_never_deleted;
PRAGMA foreign_keys = OFF;
DELETE FROM history WHERE entry = 11;
DELETE FROM recalls;
DELETE FROM entries WHERE sequence = 11;
CREATE TRIGGER entries_are_never_deleted BEFORE DELETE ON entries
BEGIN SELECT raise(ABORT, 'an entry is never deleted'); END;
