-- fault: 10 chain
-- Someone else is made to have signed.
DROP TRIGGER entries_are_never_changed;
UPDATE entries SET actor = 'someone else' WHERE sequence = 10;
