-- What happens to a harp between two checks: strings, visits, rooms, loans, climate, spares, notes, reminders.
--
-- Dates (..._on) are ISO 8601 text, a day, a month or a year, as people remember them; each CHECK completes a
-- partial one to its first day and asks whether the calendar has it. A removal, a return and a
-- reminder that was done are things of their own, so that two computers that note different things about one
-- string do not contradict each other.

INSERT INTO thing_kind
VALUES ('room'), ('placement'), ('loan'), ('loan_return'), ('planned_string'), ('string'), ('string_removal'),
       ('visit'), ('climate_series'), ('spare_movement'), ('note'), ('reminder'), ('reminder_done'), ('setting');

CREATE TABLE room (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  name TEXT NOT NULL CHECK (name <> ''),
  name_key TEXT NOT NULL CHECK (name_key <> ''),
  remarks TEXT NOT NULL
) STRICT;
CREATE INDEX room_by_name ON room (name_key);

-- From this date on the harp stands in the room; without a room: it stands in none.
CREATE TABLE placement (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER NOT NULL REFERENCES thing,
  room_no INTEGER REFERENCES thing,
  since_on TEXT NOT NULL
    CHECK (date(substr(since_on || '-01-01', 1, 10), '+0 days') || substr(since_on, 11) IS substr(since_on || '-01-01', 1, 10))
) STRICT;
CREATE INDEX placement_by_harp ON placement (harp_no);
CREATE INDEX placement_by_room ON placement (room_no);

CREATE TABLE loan (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER NOT NULL REFERENCES thing,
  borrower TEXT NOT NULL CHECK (borrower <> ''),
  from_on TEXT NOT NULL
    CHECK (date(substr(from_on || '-01-01', 1, 10), '+0 days') || substr(from_on, 11) IS substr(from_on || '-01-01', 1, 10)),
  until_on TEXT
    CHECK (date(substr(until_on || '-01-01', 1, 10), '+0 days') || substr(until_on, 11) IS substr(until_on || '-01-01', 1, 10)),
  condition_out TEXT NOT NULL,
  remarks TEXT NOT NULL
) STRICT;
CREATE INDEX loan_by_harp ON loan (harp_no);

CREATE TABLE loan_return (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  loan_no INTEGER NOT NULL REFERENCES thing,
  returned_on TEXT NOT NULL
    CHECK (date(substr(returned_on || '-01-01', 1, 10), '+0 days') || substr(returned_on, 11) IS substr(returned_on || '-01-01', 1, 10)),
  condition_back TEXT NOT NULL
) STRICT;
CREATE INDEX loan_return_by_loan ON loan_return (loan_no);

-- The string that is meant for a place.
CREATE TABLE planned_string (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER NOT NULL REFERENCES thing,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  material TEXT NOT NULL CHECK (material <> ''),
  diameter_mm REAL CHECK (diameter_mm > 0 AND diameter_mm < 20),
  wrap_material TEXT NOT NULL,
  wrap_outer_mm REAL CHECK (wrap_outer_mm > 0 AND wrap_outer_mm < 20),
  linear_density_kg_m REAL CHECK (linear_density_kg_m > 0 AND linear_density_kg_m < 1),
  linear_density_uncertainty_kg_m REAL CHECK (linear_density_uncertainty_kg_m >= 0),
  supplier TEXT NOT NULL,
  length_mm REAL CHECK (length_mm > 0 AND length_mm < 3000),
  CHECK (wrap_outer_mm IS NULL OR wrap_material <> ''),
  CHECK (wrap_outer_mm IS NULL OR diameter_mm IS NULL OR wrap_outer_mm >= diameter_mm)
) STRICT;
CREATE INDEX planned_string_by_harp ON planned_string (harp_no, place);

-- One string that somebody put on. Without put_on nobody knows when; watched_from is set for a string that
-- was on already when the ledger began to watch it.
CREATE TABLE mounted_string (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER NOT NULL REFERENCES thing,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  material TEXT NOT NULL CHECK (material <> ''),
  diameter_mm REAL CHECK (diameter_mm > 0 AND diameter_mm < 20),
  wrap_material TEXT NOT NULL,
  wrap_outer_mm REAL CHECK (wrap_outer_mm > 0 AND wrap_outer_mm < 20),
  linear_density_kg_m REAL CHECK (linear_density_kg_m > 0 AND linear_density_kg_m < 1),
  linear_density_uncertainty_kg_m REAL CHECK (linear_density_uncertainty_kg_m >= 0),
  supplier TEXT NOT NULL,
  batch TEXT NOT NULL,
  cost_minor INTEGER,
  cost_currency TEXT CHECK (cost_currency GLOB '[A-Z][A-Z][A-Z]'),
  put_on TEXT
    CHECK (date(substr(put_on || '-01-01', 1, 10), '+0 days') || substr(put_on, 11) IS substr(put_on || '-01-01', 1, 10)),
  watched_from TEXT
    CHECK (date(substr(watched_from || '-01-01', 1, 10), '+0 days') || substr(watched_from, 11) IS substr(watched_from || '-01-01', 1, 10)),
  remarks TEXT NOT NULL,
  CHECK ((cost_minor IS NULL) = (cost_currency IS NULL)),
  CHECK (put_on IS NOT NULL OR watched_from IS NOT NULL),
  CHECK (wrap_outer_mm IS NULL OR wrap_material <> ''),
  CHECK (wrap_outer_mm IS NULL OR diameter_mm IS NULL OR wrap_outer_mm >= diameter_mm)
) STRICT;
CREATE INDEX mounted_string_by_harp ON mounted_string (harp_no, place);

CREATE TABLE string_removal (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  string_no INTEGER NOT NULL REFERENCES thing,
  removed_on TEXT NOT NULL
    CHECK (date(substr(removed_on || '-01-01', 1, 10), '+0 days') || substr(removed_on, 11) IS substr(removed_on || '-01-01', 1, 10)),
  reason TEXT NOT NULL CHECK (reason IN ('broke', 'schedule', 'tone', 'false', 'set', 'unknown')),
  broke_at TEXT CHECK (broke_at IN ('nut', 'disc', 'lever', 'middle', 'soundboard', 'knot')),
  remarks TEXT NOT NULL,
  CHECK (broke_at IS NULL OR reason = 'broke')
) STRICT;
CREATE INDEX string_removal_by_string ON string_removal (string_no);

CREATE TABLE visit (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER NOT NULL REFERENCES thing,
  visited_on TEXT NOT NULL
    CHECK (date(substr(visited_on || '-01-01', 1, 10), '+0 days') || substr(visited_on, 11) IS substr(visited_on || '-01-01', 1, 10)),
  technician TEXT NOT NULL,
  cost_minor INTEGER,
  cost_currency TEXT CHECK (cost_currency GLOB '[A-Z][A-Z][A-Z]'),
  remarks TEXT NOT NULL,
  CHECK ((cost_minor IS NULL) = (cost_currency IS NULL))
) STRICT;
CREATE INDEX visit_by_harp ON visit (harp_no);

-- What was done: to one string, to all strings of one pedal, or (neither) to the harp as a whole.
CREATE TABLE visit_work (
  fact_no INTEGER NOT NULL REFERENCES visit,
  ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
  place INTEGER CHECK (place BETWEEN 0 AND 62),
  pedal TEXT CHECK (pedal IN ('C', 'D', 'E', 'F', 'G', 'A', 'B')),
  work TEXT NOT NULL CHECK (work <> ''),
  parts TEXT NOT NULL,
  PRIMARY KEY (fact_no, ordinal),
  CHECK (place IS NULL OR pedal IS NULL)
) STRICT, WITHOUT ROWID;

-- Temperature and humidity from one source, noted by hand or read from a logger's file.
CREATE TABLE climate_series (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  room_no INTEGER REFERENCES thing,
  harp_no INTEGER REFERENCES thing,
  source TEXT NOT NULL,
  CHECK ((room_no IS NULL) <> (harp_no IS NULL))
) STRICT;
CREATE INDEX climate_series_by_room ON climate_series (room_no);
CREATE INDEX climate_series_by_harp ON climate_series (harp_no);

CREATE TABLE climate_sample (
  fact_no INTEGER NOT NULL REFERENCES climate_series,
  taken_utc_ms INTEGER NOT NULL,
  taken_offset_min INTEGER NOT NULL CHECK (taken_offset_min BETWEEN -1080 AND 1080),
  temperature_c REAL CHECK (temperature_c BETWEEN -60 AND 80),
  humidity_percent REAL CHECK (humidity_percent BETWEEN 0 AND 100),
  PRIMARY KEY (fact_no, taken_utc_ms),
  CHECK (temperature_c IS NOT NULL OR humidity_percent IS NOT NULL)
) STRICT, WITHOUT ROWID;

-- Strings that came into stock (change > 0) or left it. Without a harp they are for any harp.
CREATE TABLE spare_movement (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER REFERENCES thing,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  material TEXT NOT NULL CHECK (material <> ''),
  diameter_mm REAL CHECK (diameter_mm > 0 AND diameter_mm < 20),
  wrap_material TEXT NOT NULL,
  wrap_outer_mm REAL CHECK (wrap_outer_mm > 0 AND wrap_outer_mm < 20),
  linear_density_kg_m REAL CHECK (linear_density_kg_m > 0 AND linear_density_kg_m < 1),
  linear_density_uncertainty_kg_m REAL CHECK (linear_density_uncertainty_kg_m >= 0),
  supplier TEXT NOT NULL,
  batch TEXT NOT NULL,
  change INTEGER NOT NULL CHECK (change <> 0),
  cause TEXT NOT NULL CHECK (cause IN ('bought', 'used', 'lost', 'counted')),
  moved_on TEXT NOT NULL
    CHECK (date(substr(moved_on || '-01-01', 1, 10), '+0 days') || substr(moved_on, 11) IS substr(moved_on || '-01-01', 1, 10)),
  cost_minor INTEGER,
  cost_currency TEXT CHECK (cost_currency GLOB '[A-Z][A-Z][A-Z]'),
  string_no INTEGER REFERENCES thing,
  remarks TEXT NOT NULL,
  CHECK ((cost_minor IS NULL) = (cost_currency IS NULL)),
  CHECK (cause <> 'bought' OR change > 0),
  CHECK (cause NOT IN ('used', 'lost') OR change < 0)
) STRICT;
CREATE INDEX spare_movement_by_place ON spare_movement (place);

-- Files by the hash of their bytes, kept once.
CREATE TABLE attachment (
  sha256 BLOB PRIMARY KEY CHECK (length(sha256) = 32),
  content BLOB NOT NULL
) STRICT;

CREATE TABLE note (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  about_no INTEGER REFERENCES thing,
  place INTEGER CHECK (place BETWEEN 0 AND 62),
  noted_on TEXT NOT NULL
    CHECK (date(substr(noted_on || '-01-01', 1, 10), '+0 days') || substr(noted_on, 11) IS substr(noted_on || '-01-01', 1, 10)),
  words TEXT NOT NULL
) STRICT;
CREATE INDEX note_by_subject ON note (about_no);

CREATE TABLE note_attachment (
  fact_no INTEGER NOT NULL REFERENCES note,
  ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
  file_name TEXT NOT NULL CHECK (file_name <> ''),
  sha256 BLOB NOT NULL REFERENCES attachment,
  PRIMARY KEY (fact_no, ordinal)
) STRICT, WITHOUT ROWID;

-- Due on a date; or so many months after the last visit, the last check or the last time it was done; or when a
-- step has moved by so many cents since the last visit.
CREATE TABLE reminder (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER REFERENCES thing,
  words TEXT NOT NULL CHECK (words <> ''),
  due_on TEXT
    CHECK (date(substr(due_on || '-01-01', 1, 10), '+0 days') || substr(due_on, 11) IS substr(due_on || '-01-01', 1, 10)),
  every_months INTEGER CHECK (every_months BETWEEN 1 AND 1200),
  counted_from TEXT CHECK (counted_from IN ('visit', 'check', 'done')),
  from_on TEXT
    CHECK (date(substr(from_on || '-01-01', 1, 10), '+0 days') || substr(from_on, 11) IS substr(from_on || '-01-01', 1, 10)),
  drift_cents REAL CHECK (drift_cents > 0 AND drift_cents <= 100),
  CHECK ((due_on IS NOT NULL) + (every_months IS NOT NULL) + (drift_cents IS NOT NULL) = 1),
  CHECK ((every_months IS NULL) = (counted_from IS NULL)),
  CHECK ((every_months IS NULL) = (from_on IS NULL)),
  CHECK (harp_no IS NOT NULL OR (drift_cents IS NULL AND coalesce(counted_from, 'done') = 'done'))
) STRICT;
CREATE INDEX reminder_by_harp ON reminder (harp_no);

CREATE TABLE reminder_done (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  reminder_no INTEGER NOT NULL REFERENCES thing,
  done_on TEXT NOT NULL
    CHECK (date(substr(done_on || '-01-01', 1, 10), '+0 days') || substr(done_on, 11) IS substr(done_on || '-01-01', 1, 10)),
  remarks TEXT NOT NULL
) STRICT;
CREATE INDEX reminder_done_by_reminder ON reminder_done (reminder_no);

-- What an owner sets for one harp, or (without a harp) for all: tolerances and the like. Values are JSON.
CREATE TABLE setting (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER REFERENCES thing,
  name TEXT NOT NULL CHECK (name <> ''),
  value_json TEXT NOT NULL CHECK (value_json <> '')
) STRICT;
CREATE INDEX setting_by_name ON setting (name, harp_no);
