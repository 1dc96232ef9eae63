-- An answer that is asked for again under its key comes with the status it had.
ALTER TABLE idempotency ADD COLUMN status INTEGER NOT NULL DEFAULT 200;
