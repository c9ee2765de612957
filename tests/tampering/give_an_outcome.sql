-- fault: 10 examinations
-- An examination is made to look overridden.
UPDATE examinations SET outcome = 'overridden';
