-- fault: 6 chain
-- The link to the entry before.
DROP TRIGGER entries_are_never_changed;
UPDATE entries SET previous = zeroblob(32) WHERE sequence = 6;
