-- A coach's decisions are found without opening those of others.
CREATE INDEX decisions_by_coach ON decisions (organisation, coach, created_at, sequence) WHERE coach IS NOT NULL;
