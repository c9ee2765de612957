-- fault: 11 recalls
-- A patient appears on the due list whom no entry put there.
INSERT INTO recalls SELECT 999, person, exam, advice, action, ruleset, rule, clinician, risk, state, open, due, due_to,
  late_on, interval_days, under_review, entry FROM recalls;
