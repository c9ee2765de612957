-- fault: 10 chain
-- The signature is put on another examination.
DROP TRIGGER entries_are_never_changed;
UPDATE entries SET subject = 'examination:E2' WHERE sequence = 10;
