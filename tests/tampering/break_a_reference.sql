-- fault: 0 recalls
-- A recall of a person who is not there.
PRAGMA foreign_keys = OFF;
UPDATE recalls SET person = 'P999';
