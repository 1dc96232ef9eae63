-- The tables of a new PostgreSQL store, as SQLite files came to them step by step; organisation leads every key, so that a partitioned engine can split them by it.
CREATE TABLE decisions (
    organisation       TEXT    NOT NULL,
    sequence           INTEGER NOT NULL,
    decision_id        TEXT    NOT NULL,
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
    PRIMARY KEY (organisation, sequence),
    UNIQUE (organisation, decision_id)
);
-- Requests and answers come packed; packing them again would only cost time.
ALTER TABLE decisions ALTER COLUMN request SET STORAGE EXTERNAL;
ALTER TABLE decisions ALTER COLUMN answer SET STORAGE EXTERNAL;
CREATE INDEX decisions_by_time ON decisions (organisation, created_at, sequence, kind, status, catalogue_version, rules_version);
CREATE INDEX decisions_by_athlete ON decisions (organisation, athlete_ref, created_at, sequence) WHERE athlete_ref IS NOT NULL;
CREATE INDEX decisions_by_coach ON decisions (organisation, coach, created_at, sequence) WHERE coach IS NOT NULL;
CREATE TABLE decision_exercises (
    organisation TEXT    NOT NULL,
    exercise     TEXT    NOT NULL,
    created_at   INTEGER NOT NULL,
    sequence     INTEGER NOT NULL,
    PRIMARY KEY (organisation, exercise, created_at, sequence)
);
CREATE INDEX decision_exercises_by_decision ON decision_exercises (organisation, sequence);
CREATE TABLE chain_heads (
    organisation TEXT    NOT NULL PRIMARY KEY,
    sequence     INTEGER NOT NULL,
    hash         BLOB    NOT NULL
);
CREATE TABLE dictionaries (
    number  INTEGER PRIMARY KEY AUTOINCREMENT,
    hash    BLOB NOT NULL UNIQUE,
    content BLOB NOT NULL
);
CREATE TABLE idempotency (
    organisation TEXT    NOT NULL,
    key          TEXT    NOT NULL,
    body_hash    BLOB    NOT NULL,
    response     BLOB    NOT NULL,
    status       INTEGER NOT NULL DEFAULT 200,
    created_at   INTEGER NOT NULL,
    PRIMARY KEY (organisation, key)
);
ALTER TABLE idempotency ALTER COLUMN response SET STORAGE EXTERNAL;
CREATE INDEX idempotency_by_age ON idempotency (organisation, created_at);
CREATE TABLE idempotency_athletes (
    organisation TEXT NOT NULL,
    key          TEXT NOT NULL,
    athlete_ref  TEXT NOT NULL,
    PRIMARY KEY (organisation, key, athlete_ref),
    FOREIGN KEY (organisation, key) REFERENCES idempotency (organisation, key) ON DELETE CASCADE
);
CREATE INDEX idempotency_athletes_by_athlete ON idempotency_athletes (organisation, athlete_ref);
CREATE TABLE athletes (
    organisation TEXT    NOT NULL,
    ref          TEXT    NOT NULL,
    profile      TEXT    NOT NULL,
    updated_at   INTEGER NOT NULL,
    PRIMARY KEY (organisation, ref)
);
CREATE TABLE marks (
    name TEXT NOT NULL PRIMARY KEY
);
CREATE TABLE knowledge_versions (
    organisation TEXT    NOT NULL,
    kind         TEXT    NOT NULL CHECK (kind IN ('catalogue', 'rules')),
    version      TEXT    NOT NULL,
    based_on     TEXT,
    created_at   INTEGER NOT NULL,
    content      BLOB    NOT NULL,
    PRIMARY KEY (organisation, kind, version)
);
CREATE TABLE knowledge_publications (
    position          INTEGER PRIMARY KEY AUTOINCREMENT,
    organisation      TEXT    NOT NULL,
    catalogue_version TEXT    NOT NULL,
    rules_version     TEXT    NOT NULL,
    published_at      INTEGER NOT NULL
);
CREATE INDEX knowledge_publications_by_organisation ON knowledge_publications (organisation, position);
