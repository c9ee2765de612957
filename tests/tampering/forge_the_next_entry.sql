-- fault: 12 chain
-- A forged entry whose hash is right in itself, but which does not link to the one before. The hash is that of
--   { printf '\0'; head -c 32 /dev/zero; printf '\0\0\0\0\0\0\0\14';
--     printf '%s' '{"actor":"forger","at":"2026-03-20T09:00:00.000Z","body":{},"kind":"checkpoint","subject":"ledger"}'; }
--   | sha256sum
DROP TRIGGER entries_are_appended;
INSERT INTO entries VALUES (12, '2026-03-20T09:00:00.000Z', 'forger', 'checkpoint', 'ledger', '{}', zeroblob(32),
  x'5133f6845206538e577e13b2d0da710e4e6f80f4fb680aef68ff81e1618d15b2');
