-- Versions of catalogue and rules: the text whose hash is the version. Those of the data folder belong to no organisation; nothing is ever changed in a row.
CREATE TABLE knowledge_versions (
    organisation TEXT    NOT NULL,
    kind         TEXT    NOT NULL CHECK (kind IN ('catalogue', 'rules')),
    version      TEXT    NOT NULL,
    based_on     TEXT,
    created_at   INTEGER NOT NULL,
    content      BLOB    NOT NULL,
    PRIMARY KEY (organisation, kind, version)
) STRICT;
-- What was put in force, pair by pair; the last row of an organisation is in force.
CREATE TABLE knowledge_publications (
    position          INTEGER PRIMARY KEY AUTOINCREMENT,
    organisation      TEXT    NOT NULL,
    catalogue_version TEXT    NOT NULL,
    rules_version     TEXT    NOT NULL,
    published_at      INTEGER NOT NULL
) STRICT;
CREATE INDEX knowledge_publications_by_organisation ON knowledge_publications (organisation, position);
