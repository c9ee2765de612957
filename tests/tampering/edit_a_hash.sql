-- fault: 6 chain
-- fault: 7 chain
-- One byte of a hash: the entry does not fit it, and the next does not link to it.
DROP TRIGGER entries_are_never_changed;
UPDATE entries SET hash = CAST(x'00' || substr(hash, 2) AS BLOB) WHERE sequence = 6;
