-- Learned numbers by the hash of their text, of an organisation (no coach) or of one coach, with the report of what they gain; nothing is ever changed in a row.
CREATE TABLE preferences (
    organisation TEXT   NOT NULL,
    coach        TEXT   NOT NULL,
    version      TEXT   NOT NULL,
    created_at   BIGINT NOT NULL,
    content      TEXT   NOT NULL,
    report       TEXT   NOT NULL,
    PRIMARY KEY (organisation, coach, version)
);
CREATE INDEX preferences_by_version ON preferences (organisation, version);
-- What was put in force for whom; the last row counts, and no version stands for none.
CREATE TABLE preference_publications (
    organisation TEXT    NOT NULL,
    coach        TEXT    NOT NULL,
    entry        INTEGER NOT NULL,
    version      TEXT,
    published_at BIGINT  NOT NULL,
    PRIMARY KEY (organisation, coach, entry)
);
