-- fault: 10 chain
-- The signature is dated back by a day.
DROP TRIGGER entries_are_never_changed;
UPDATE entries SET at = '2026-03-19T09:00:00.000Z' WHERE sequence = 10;
