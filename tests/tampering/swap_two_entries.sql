-- fault: 4 chain
-- fault: 5 chain
-- The two pots change places.
DROP TRIGGER entries_are_never_changed;
PRAGMA foreign_keys = OFF;
UPDATE entries SET sequence = 1000 WHERE sequence = 4;
UPDATE entries SET sequence = 4 WHERE sequence = 5;
UPDATE entries SET sequence = 5 WHERE sequence = 1000;
