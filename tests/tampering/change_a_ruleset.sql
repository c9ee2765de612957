-- fault: 1 documents
-- Three years become five in the bytes of the ruleset that answered.
DROP TRIGGER documents_are_never_changed;
UPDATE documents SET bytes = CAST(replace(CAST(bytes AS TEXT), 'P3Y', 'P5Y') AS BLOB) WHERE CAST(bytes AS TEXT) LIKE '%definitions%';
