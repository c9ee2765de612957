-- fault: 11 recalls
-- A recall is put off by ten years, in the list's table only.
UPDATE recalls SET due = '2039-03-10', due_to = '2039-03-10', late_on = '2039-04-21';
