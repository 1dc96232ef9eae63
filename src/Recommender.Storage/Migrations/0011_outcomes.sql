-- What was done with picks, one row a report, appended only; the last of a decision's exercise counts. And what was read from here for a decision.
CREATE TABLE outcomes (
    organisation TEXT    NOT NULL,
    decision_id  TEXT    NOT NULL,
    exercise     TEXT    NOT NULL,
    entry        INTEGER NOT NULL,
    created_at   BIGINT  NOT NULL,
    verdict      TEXT    NOT NULL,
    athlete_ref  TEXT,
    coach        TEXT,
    report       TEXT    NOT NULL,
    facts        TEXT,
    pained       INTEGER NOT NULL,
    erased       INTEGER NOT NULL,
    PRIMARY KEY (organisation, decision_id, exercise, entry)
);
-- Cautions of an athlete are looked up with every request that names one.
CREATE INDEX outcomes_by_pain ON outcomes (organisation, athlete_ref, created_at) WHERE pained = 1;
CREATE INDEX outcomes_by_athlete ON outcomes (organisation, athlete_ref) WHERE athlete_ref IS NOT NULL;
ALTER TABLE decisions ADD COLUMN facts BLOB;
