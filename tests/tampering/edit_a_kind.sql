-- fault: 10 chain
-- A signature is made an override.
DROP TRIGGER entries_are_never_changed;
UPDATE entries SET kind = 'advice overridden' WHERE sequence = 10;
