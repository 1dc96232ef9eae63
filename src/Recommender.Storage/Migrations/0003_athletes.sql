-- Saved athlete profiles, and marks of what was done once to this store.
CREATE TABLE athletes (
    organisation TEXT    NOT NULL,
    ref          TEXT    NOT NULL,
    profile      TEXT    NOT NULL,
    updated_at   INTEGER NOT NULL,
    PRIMARY KEY (organisation, ref)
) WITHOUT ROWID;
CREATE TABLE marks (
    name TEXT NOT NULL PRIMARY KEY
) WITHOUT ROWID;
