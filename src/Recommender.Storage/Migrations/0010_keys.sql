-- Access keys: who may ask as which organisation. Of a secret only a salted hash is kept; a revoked key stays, so that a store that had keys never opens again.
CREATE TABLE access_keys (
    key_id         TEXT    NOT NULL PRIMARY KEY,
    organisation   TEXT    NOT NULL CHECK (organisation <> ''),
    scopes         TEXT    NOT NULL,
    note           TEXT,
    created_at     INTEGER NOT NULL,
    expires_at     INTEGER,
    rotated_at     INTEGER,
    revoked_at     INTEGER,
    salt           BLOB    NOT NULL CHECK (length(salt) = 16),
    hash           BLOB    NOT NULL CHECK (length(hash) = 32),
    former_salt    BLOB,
    former_hash    BLOB,
    former_until   INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX access_keys_by_organisation ON access_keys (organisation, created_at, key_id);
-- What protects form tokens and sign-in cookies; all programs on one store share it.
CREATE TABLE protection_keys (
    name       TEXT    NOT NULL PRIMARY KEY,
    content    TEXT    NOT NULL,
    created_at INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
