-- What makes large ledgers quick to look into. No rows change.

-- The last things done, whoever did them.
CREATE INDEX action_by_time ON action (recorded_utc_ms);
