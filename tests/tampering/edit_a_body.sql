-- fault: 3 chain
-- fault: 3 body
-- The examination gets another endoscopist; nothing else is touched.
DROP TRIGGER entries_are_never_changed;
UPDATE entries SET body = replace(body, 'Dr Invented', 'Dr Other') WHERE sequence = 3;
