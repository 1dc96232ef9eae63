-- Finds claims by age, so that the lapsed ones can be swept.
CREATE INDEX idempotency_by_age ON idempotency (organisation, created_at);
