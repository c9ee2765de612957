-- fault: 0 schema
-- A trigger of the same name that stops nothing.
DROP TRIGGER entries_are_never_deleted;
CREATE TRIGGER entries_are_never_deleted BEFORE DELETE ON entries BEGIN SELECT 1; END;
