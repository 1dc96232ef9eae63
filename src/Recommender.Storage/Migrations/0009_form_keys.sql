-- Keys of form tokens, where replicas share a database; an embedded store keeps them beside its file.
CREATE TABLE form_keys (
    name    TEXT NOT NULL PRIMARY KEY,
    content TEXT NOT NULL
) STRICT, WITHOUT ROWID;
