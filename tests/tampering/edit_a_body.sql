-- fault: 3 chain
-- fault: 10 examinations
-- The examination gets another endoscopist. The row that follows from it was last written by entry 10.
DROP TRIGGER entries_are_never_changed;
UPDATE entries SET body = replace(body, 'Dr Invented', 'Dr Other') WHERE sequence = 3;
