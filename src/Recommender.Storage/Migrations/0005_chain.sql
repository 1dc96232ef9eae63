-- Decisions chained over canonical JSON, with a place in their organisation's chain. Rows from before, hashed in another way, stay beside under another name.
DROP INDEX decisions_by_athlete;
DROP INDEX decisions_by_organisation;
ALTER TABLE decisions RENAME TO decisions_before_chain;
CREATE TABLE decisions (
    position           INTEGER PRIMARY KEY AUTOINCREMENT,
    organisation       TEXT    NOT NULL,
    sequence           INTEGER NOT NULL,
    decision_id        TEXT    NOT NULL UNIQUE,
    kind               TEXT    NOT NULL,
    created_at         INTEGER NOT NULL,
    status             TEXT    NOT NULL,
    top                TEXT,
    engine             INTEGER NOT NULL,
    catalogue_version  TEXT    NOT NULL,
    rules_version      TEXT    NOT NULL,
    preference_version TEXT,
    athlete_ref        TEXT,
    coach              TEXT,
    personal           BLOB,
    personal_salt      BLOB,
    personal_hash      BLOB    NOT NULL CHECK (length(personal_hash) = 32),
    previous_hash      BLOB    NOT NULL,
    hash               BLOB    NOT NULL,
    request            BLOB    NOT NULL,
    answer             BLOB    NOT NULL,
    UNIQUE (organisation, sequence)
) STRICT;
-- What a list asks for stands in the index, so that rows it does not want are not opened.
CREATE INDEX decisions_by_time ON decisions (organisation, created_at, sequence, kind, status, catalogue_version, rules_version);
CREATE INDEX decisions_by_athlete ON decisions (organisation, athlete_ref, created_at, sequence) WHERE athlete_ref IS NOT NULL;
-- Which decisions an exercise stands in.
CREATE TABLE decision_exercises (
    organisation TEXT    NOT NULL,
    exercise     TEXT    NOT NULL,
    created_at   INTEGER NOT NULL,
    sequence     INTEGER NOT NULL,
    PRIMARY KEY (organisation, exercise, created_at, sequence)
) STRICT, WITHOUT ROWID;
CREATE INDEX decision_exercises_by_decision ON decision_exercises (organisation, sequence);
-- The end of each chain, so that records cut off there are missed too.
CREATE TABLE chain_heads (
    organisation TEXT    NOT NULL PRIMARY KEY,
    sequence     INTEGER NOT NULL,
    hash         BLOB    NOT NULL
) STRICT, WITHOUT ROWID;
-- What answers are packed with: text that they repeat.
CREATE TABLE dictionaries (
    number  INTEGER PRIMARY KEY AUTOINCREMENT,
    hash    BLOB NOT NULL UNIQUE,
    content BLOB NOT NULL
) STRICT;
-- Answers under a caller's key are packed in the new way too; the old ones would have lapsed within a day.
DELETE FROM idempotency;
-- Athletes whose requests stand under a caller's key, so that erasing them finds it.
CREATE TABLE idempotency_athletes (
    organisation TEXT NOT NULL,
    key          TEXT NOT NULL,
    athlete_ref  TEXT NOT NULL,
    PRIMARY KEY (organisation, key, athlete_ref),
    FOREIGN KEY (organisation, key) REFERENCES idempotency (organisation, key) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;
CREATE INDEX idempotency_athletes_by_athlete ON idempotency_athletes (organisation, athlete_ref);
