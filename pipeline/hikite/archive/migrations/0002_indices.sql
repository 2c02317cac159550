-- What a sequence asks of an event, and the day it is sorted by, stand in the indices too: its row need not be read.
DROP INDEX events_bout;
CREATE INDEX events_bout ON events (
    bout, start_ms, concept, status, side, head, moment, standing, clock_best_s, scored, golden, confidence,
    attempt, day
);
DROP INDEX events_what;
CREATE INDEX events_what ON events (
    concept, status, side, standing, clock_best_s, scored, head, golden, confidence, attempt, day, bout, start_ms,
    moment, side_confidence, status_confidence, grips
);
DROP INDEX events_how;
CREATE INDEX events_how ON events (
    scored, status, standing, side, clock_best_s, kind, head, golden, confidence, attempt, day, bout, start_ms,
    moment, grips, concept
);
DROP INDEX events_attempt;
CREATE INDEX events_attempt ON events (
    attempt, concept, status, side, standing, clock_best_s, scored, head, golden, confidence, day, bout, start_ms,
    moment
) WHERE attempt > 1;
-- Nor that of an event at which a grip was held.
ALTER TABLE held ADD COLUMN side TEXT;
ALTER TABLE held ADD COLUMN standing INTEGER;
ALTER TABLE held ADD COLUMN clock_best_s REAL;
ALTER TABLE held ADD COLUMN scored INTEGER;
ALTER TABLE held ADD COLUMN head INTEGER;
ALTER TABLE held ADD COLUMN confidence REAL;
UPDATE held SET (side, standing, clock_best_s, scored, head, confidence) = (
    SELECT side, standing, clock_best_s, scored, head, confidence FROM events WHERE id = event
);
