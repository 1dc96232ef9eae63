-- Answers kept under the caller's key, so that the same request asked again is not decided again.
CREATE TABLE idempotency (
    organisation TEXT    NOT NULL,
    key          TEXT    NOT NULL,
    body_hash    BLOB    NOT NULL,
    response     BLOB    NOT NULL,
    created_at   INTEGER NOT NULL,
    PRIMARY KEY (organisation, key)
) WITHOUT ROWID;
