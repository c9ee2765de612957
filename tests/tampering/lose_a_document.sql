-- fault: 3 documents
-- The record as it came is gone.
DROP TRIGGER documents_are_never_deleted;
DELETE FROM documents WHERE digest = (SELECT json_extract(body, '$.document') FROM entries WHERE sequence = 3);
