-- fault: 0 documents
-- Bytes that no entry speaks of.
INSERT INTO documents VALUES ('sha256:2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881', CAST('x' AS BLOB));
