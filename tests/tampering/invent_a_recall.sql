-- fault: 11 recalls
-- A patient appears on the due list whom no entry put there.
CREATE TEMP TABLE invented AS SELECT * FROM recalls;
UPDATE invented SET number = 999;
INSERT INTO recalls SELECT * FROM invented;
