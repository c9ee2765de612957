-- fault: 2 people
-- A list would print another name.
UPDATE people SET name = 'Someone, Else';
