-- The frame of the ledger, its harps and their checks.
--
-- A *thing* is what the ledger speaks of: a harp, a check, a string. A *fact* states the whole of one thing
-- at the time it was written; it is never changed. A correction is a new fact that supersedes the one before;
-- voiding is a fact without content; undoing is a fact that restores an earlier one. What holds now follows
-- from the set of facts (view current_fact), so that two ledgers are merged by the union of their rows.
-- Numbers (_no) are local to the file; keys (id, UUID version 7) are the same in every copy.

CREATE TABLE ledger (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  id BLOB NOT NULL CHECK (length(id) = 16),
  created_utc_ms INTEGER NOT NULL,
  created_offset_min INTEGER NOT NULL CHECK (created_offset_min BETWEEN -1080 AND 1080)
) STRICT;

-- What a person did in one go; its facts are undone together.
CREATE TABLE action (
  action_no INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  recorded_utc_ms INTEGER NOT NULL,
  recorded_offset_min INTEGER NOT NULL CHECK (recorded_offset_min BETWEEN -1080 AND 1080),
  computer TEXT NOT NULL,
  what TEXT NOT NULL CHECK (what <> ''),
  undoes_no INTEGER REFERENCES action CHECK (undoes_no <> action_no)
) STRICT;
CREATE INDEX action_by_undone ON action (undoes_no) WHERE undoes_no IS NOT NULL;

CREATE TABLE thing_kind (name TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO thing_kind VALUES ('harp'), ('check');

CREATE TABLE thing (
  thing_no INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  kind TEXT NOT NULL REFERENCES thing_kind
) STRICT;
-- The last eight hexadecimal digits of a key are the handle by which people name a thing.
CREATE INDEX thing_by_handle ON thing (substr(hex(id), 25));

CREATE TABLE fact (
  fact_no INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  thing_no INTEGER NOT NULL REFERENCES thing,
  action_no INTEGER NOT NULL REFERENCES action,
  effect TEXT NOT NULL CHECK (effect IN ('state', 'void', 'restore')),
  restores_no INTEGER REFERENCES fact CHECK (restores_no <> fact_no),
  reason TEXT NOT NULL DEFAULT '',
  CHECK ((effect = 'restore') = (restores_no IS NOT NULL)),
  CHECK (effect <> 'void' OR reason <> '')
) STRICT;
CREATE INDEX fact_by_thing ON fact (thing_no);
CREATE INDEX fact_by_action ON fact (action_no);

-- Which facts a fact takes the place of; these rows belong to it.
CREATE TABLE supersession (
  fact_no INTEGER NOT NULL REFERENCES fact,
  superseded_no INTEGER NOT NULL REFERENCES fact,
  PRIMARY KEY (superseded_no, fact_no),
  CHECK (fact_no <> superseded_no)
) STRICT, WITHOUT ROWID;
CREATE INDEX supersession_by_fact ON supersession (fact_no);

-- Facts that nothing supersedes. More than one for a thing is a conflict of two computers.
CREATE VIEW head_fact AS
SELECT f.fact_no, f.id, f.thing_no, f.action_no, f.effect, coalesce(f.restores_no, f.fact_no) AS content_no
  FROM fact f
 WHERE NOT EXISTS (SELECT 1 FROM supersession s WHERE s.superseded_no = f.fact_no);

-- What holds now: for each thing that is not void its one head, in a conflict the youngest that has content.
CREATE VIEW current_fact AS
SELECT h.thing_no, h.fact_no, h.content_no
  FROM head_fact h
 WHERE h.effect <> 'void'
   AND NOT EXISTS (SELECT 1 FROM head_fact other
                    WHERE other.thing_no = h.thing_no AND other.effect <> 'void' AND other.id > h.id);

-- The rows of content that hold now, to be joined by fact_no: `FROM harp JOIN current_content USING (fact_no)`.
CREATE VIEW current_content AS
SELECT f.fact_no, c.thing_no, t.id, c.fact_no AS head_no
  FROM fact f
  JOIN current_fact c ON c.thing_no = f.thing_no AND c.content_no = f.fact_no
  JOIN thing t ON t.thing_no = c.thing_no;

CREATE TABLE harp (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  name TEXT NOT NULL CHECK (name <> ''),
  name_key TEXT NOT NULL CHECK (name_key <> ''),
  kind TEXT NOT NULL CHECK (kind IN ('pedal', 'single', 'lever')),
  nickname TEXT NOT NULL,
  maker TEXT NOT NULL,
  serial_number TEXT NOT NULL,
  year_built INTEGER CHECK (year_built BETWEEN 1000 AND 9999),
  value_minor INTEGER CHECK (value_minor >= 0),
  value_currency TEXT CHECK (value_currency GLOB '[A-Z][A-Z][A-Z]'),
  photo_path TEXT NOT NULL,
  remarks TEXT NOT NULL,
  left_on TEXT
    CHECK (date(substr(left_on || '-01-01', 1, 10), '+0 days') || substr(left_on, 11) IS substr(left_on || '-01-01', 1, 10)),
  CHECK ((value_minor IS NULL) = (value_currency IS NULL))
) STRICT;
CREATE INDEX harp_by_name ON harp (name_key);

-- A place is counted in diatonic steps above C0: C4 (harp name 4C) is 28.
CREATE TABLE harp_string (
  fact_no INTEGER NOT NULL REFERENCES harp,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  open_alteration INTEGER NOT NULL CHECK (open_alteration BETWEEN -1 AND 1),
  has_natural_disc INTEGER NOT NULL CHECK (has_natural_disc IN (0, 1)),
  has_sharp_disc INTEGER NOT NULL CHECK (has_sharp_disc IN (0, 1)),
  PRIMARY KEY (fact_no, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE harp_check (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER NOT NULL REFERENCES thing,
  taken_utc_ms INTEGER NOT NULL,
  taken_offset_min INTEGER NOT NULL CHECK (taken_offset_min BETWEEN -1080 AND 1080),
  method TEXT NOT NULL CHECK (method <> ''),
  a4_hz REAL NOT NULL CHECK (a4_hz BETWEEN 200 AND 900),
  temperature_c REAL CHECK (temperature_c BETWEEN -60 AND 80),
  humidity_percent REAL CHECK (humidity_percent BETWEEN 0 AND 100),
  remarks TEXT NOT NULL
) STRICT;
CREATE INDEX harp_check_by_harp ON harp_check (harp_no, taken_utc_ms);

CREATE TABLE check_recording (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  file_index INTEGER NOT NULL CHECK (file_index >= 0),
  path TEXT NOT NULL,
  sha256 BLOB NOT NULL CHECK (length(sha256) = 32),
  duration_ms INTEGER NOT NULL CHECK (duration_ms >= 0),
  PRIMARY KEY (fact_no, file_index)
) STRICT, WITHOUT ROWID;

-- Whole numbers of small units, since SQLite keeps a small number in few bytes (docs/decisions). Position:
-- 0 flat, 1 natural, 2 sharp, 3 open, 4 engaged. Doubts: one bit each, see db/records/stored_codes.cpp.
CREATE TABLE check_reading (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 4),
  repeat INTEGER NOT NULL CHECK (repeat >= 0),
  file_index INTEGER NOT NULL CHECK (file_index >= 0),
  start_ms INTEGER NOT NULL CHECK (start_ms >= 0),
  frequency_hz REAL NOT NULL CHECK (frequency_hz > 0),
  uncertainty_microcents INTEGER NOT NULL CHECK (uncertainty_microcents >= 0),
  freedom_tenths INTEGER NOT NULL CHECK (freedom_tenths >= 0),
  inharmonicity_billionths INTEGER NOT NULL,
  glide_millicents INTEGER NOT NULL,
  decay_ms INTEGER NOT NULL CHECK (decay_ms >= 0),
  snr_tenths_db INTEGER NOT NULL,
  beat_rate_millihertz INTEGER CHECK (beat_rate_millihertz >= 0),
  doubts INTEGER NOT NULL CHECK (doubts BETWEEN 0 AND 1048575),
  PRIMARY KEY (fact_no, place, position, repeat)
) STRICT, WITHOUT ROWID;

-- The partials of all readings of a check, packed; encoding 1 is described in db/records/packed_partials.hpp.
CREATE TABLE check_partials (
  fact_no INTEGER PRIMARY KEY REFERENCES harp_check,
  encoding INTEGER NOT NULL CHECK (encoding >= 1),
  packed BLOB NOT NULL
) STRICT;

-- Step: 0 lower, 1 upper, 2 both together (its error is against 200 cents).
CREATE TABLE check_step (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  step INTEGER NOT NULL CHECK (step BETWEEN 0 AND 2),
  error_microcents INTEGER NOT NULL,
  uncertainty_microcents INTEGER NOT NULL CHECK (uncertainty_microcents >= 0),
  freedom_tenths INTEGER CHECK (freedom_tenths >= 0),
  PRIMARY KEY (fact_no, place, step),
  CHECK ((step = 2) = (freedom_tenths IS NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE check_missing (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 4),
  PRIMARY KEY (fact_no, place, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE check_ignored (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
  file_index INTEGER NOT NULL CHECK (file_index >= 0),
  start_ms INTEGER NOT NULL CHECK (start_ms >= 0),
  reason TEXT NOT NULL,
  PRIMARY KEY (fact_no, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE check_remark (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
  remark TEXT NOT NULL,
  PRIMARY KEY (fact_no, ordinal)
) STRICT, WITHOUT ROWID;
