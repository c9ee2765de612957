-- fault: 11 recalls
-- A patient vanishes from the due list.
DELETE FROM recalls;
