-- What a fleet of a thousand harps needs. No rows change.

-- The steps of one string in one check: a third of the rows, and two thirds of the bytes, of check_step, in which checks
-- were kept before and which may still be filled. Whole: both steps together (its error is against 200 cents).
CREATE TABLE check_string_steps (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  lower_error_microcents INTEGER,
  lower_uncertainty_microcents INTEGER CHECK (lower_uncertainty_microcents >= 0),
  lower_freedom_tenths INTEGER CHECK (lower_freedom_tenths >= 0),
  upper_error_microcents INTEGER,
  upper_uncertainty_microcents INTEGER CHECK (upper_uncertainty_microcents >= 0),
  upper_freedom_tenths INTEGER CHECK (upper_freedom_tenths >= 0),
  whole_error_microcents INTEGER,
  whole_uncertainty_microcents INTEGER CHECK (whole_uncertainty_microcents >= 0),
  PRIMARY KEY (fact_no, place),
  CHECK ((lower_error_microcents IS NULL) = (lower_uncertainty_microcents IS NULL)),
  CHECK ((lower_error_microcents IS NULL) = (lower_freedom_tenths IS NULL)),
  CHECK ((upper_error_microcents IS NULL) = (upper_uncertainty_microcents IS NULL)),
  CHECK ((upper_error_microcents IS NULL) = (upper_freedom_tenths IS NULL)),
  CHECK ((whole_error_microcents IS NULL) = (whole_uncertainty_microcents IS NULL)),
  CHECK (coalesce(lower_error_microcents, upper_error_microcents, whole_error_microcents) IS NOT NULL)
) STRICT, WITHOUT ROWID;

-- No step of a check stands in both tables.
CREATE TRIGGER steps_not_in_check_step BEFORE INSERT ON check_string_steps
WHEN EXISTS (SELECT 1 FROM check_step WHERE fact_no = NEW.fact_no AND place = NEW.place)
BEGIN
  SELECT RAISE(ABORT, 'the steps of this string are in check_step already; give them in one of the two tables');
END;
CREATE TRIGGER steps_not_in_check_string_steps BEFORE INSERT ON check_step
WHEN EXISTS (SELECT 1 FROM check_string_steps WHERE fact_no = NEW.fact_no AND place = NEW.place)
BEGIN
  SELECT RAISE(ABORT, 'the steps of this string are in check_string_steps already; give them in one of the two tables');
END;

-- All steps of all checks, wherever they are kept, in the columns of check_step.
CREATE VIEW step_row AS
SELECT fact_no, place, step, error_microcents, uncertainty_microcents, freedom_tenths
  FROM check_step
UNION ALL
SELECT fact_no, place, 0, lower_error_microcents, lower_uncertainty_microcents, lower_freedom_tenths
  FROM check_string_steps WHERE lower_error_microcents IS NOT NULL
UNION ALL
SELECT fact_no, place, 1, upper_error_microcents, upper_uncertainty_microcents, upper_freedom_tenths
  FROM check_string_steps WHERE upper_error_microcents IS NOT NULL
UNION ALL
SELECT fact_no, place, 2, whole_error_microcents, whole_uncertainty_microcents, NULL
  FROM check_string_steps WHERE whole_error_microcents IS NOT NULL;

-- How large the tables of such a fleet are, for SQLite to choose where a query begins. Without it a list of the harps
-- began at all facts. The figures are kept as they are, so that a query goes the same way in every ledger: rows of the
-- table, then rows for one value of the index's first column, of its first two, and so on.
ANALYZE sqlite_schema;
INSERT INTO sqlite_stat1 (tbl, idx, stat)
VALUES ('action', 'sqlite_autoindex_action_1', '150000 1'),
       ('action', 'action_by_time', '150000 2'),
       ('action', 'action_by_undone', '1000 1'),
       ('thing', 'sqlite_autoindex_thing_1', '400000 1'),
       ('thing', 'thing_by_handle', '400000 1'),
       ('fact', 'sqlite_autoindex_fact_1', '420000 1'),
       ('fact', 'fact_by_thing', '420000 2'),
       ('fact', 'fact_by_action', '420000 4'),
       ('supersession', 'supersession', '20000 2 1'),
       ('supersession', 'supersession_by_fact', '20000 2'),
       ('harp', 'harp_by_name', '1000 1'),
       ('harp_string', 'harp_string', '47000 47 1'),
       ('harp_check', 'harp_check_by_harp', '80000 80 1'),
       ('check_recording', 'check_recording', '80000 1 1'),
       ('check_reading', 'check_reading', '11280000 141 3 1 1'),
       ('check_step', 'check_step', '11280000 141 3 1'),
       ('check_string_steps', 'check_string_steps', '3760000 47 1'),
       ('check_partials', NULL, '80000'),
       ('room', 'room_by_name', '20 1'),
       ('placement', 'placement_by_harp', '2000 2'),
       ('placement', 'placement_by_room', '2000 100'),
       ('loan', 'loan_by_harp', '5000 5'),
       ('loan_return', 'loan_return_by_loan', '5000 1'),
       ('planned_string', 'planned_string_by_harp', '47000 47 1'),
       ('mounted_string', 'mounted_string_by_harp', '141000 141 3'),
       ('string_removal', 'string_removal_by_string', '94000 1'),
       ('visit', 'visit_by_harp', '20000 20'),
       ('visit_work', 'visit_work', '40000 2 1'),
       ('climate_series', 'climate_series_by_room', '200 10'),
       ('climate_series', 'climate_series_by_harp', '200 100'),
       ('climate_sample', 'climate_sample', '1200000 6000 1'),
       ('spare_movement', 'spare_movement_by_place', '10000 200'),
       ('note', 'note_by_subject', '20000 20'),
       ('reminder', 'reminder_by_harp', '2000 2'),
       ('reminder_done', 'reminder_done_by_reminder', '10000 5'),
       ('setting', 'setting_by_name', '2000 500 1');
ANALYZE sqlite_schema;
