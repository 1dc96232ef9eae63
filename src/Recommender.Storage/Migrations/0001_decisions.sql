-- Decisions: one row an answer, appended only, chained by hash within an organisation.
CREATE TABLE decisions (
    position           INTEGER PRIMARY KEY AUTOINCREMENT,
    organisation       TEXT    NOT NULL,
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
    personal           BLOB,
    personal_salt      BLOB,
    personal_hash      BLOB    NOT NULL,
    request            BLOB    NOT NULL,
    answer             BLOB    NOT NULL,
    content_hash       BLOB    NOT NULL,
    previous_hash      BLOB    NOT NULL,
    hash               BLOB    NOT NULL
);
CREATE INDEX decisions_by_athlete ON decisions (organisation, athlete_ref, position);
CREATE INDEX decisions_by_organisation ON decisions (organisation, position);
