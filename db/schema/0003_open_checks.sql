-- Guided checks under way, so that none is lost when the power goes, and each can be gone on with another day.
--
-- These rows are no facts: they belong to this copy of the ledger alone, are not merged or exported, and go
-- when the check is stored or dropped. Numbers are kept as measured, since steps are computed from them later.
-- Codes of positions and doubts as in check_reading.

CREATE TABLE open_check (
  open_check_no INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  harp_no INTEGER NOT NULL REFERENCES thing,
  begun_utc_ms INTEGER NOT NULL,
  begun_offset_min INTEGER NOT NULL CHECK (begun_offset_min BETWEEN -1080 AND 1080),
  method TEXT NOT NULL CHECK (method <> ''),
  a4_hz REAL NOT NULL CHECK (a4_hz BETWEEN 200 AND 900),
  way TEXT NOT NULL CHECK (way <> ''),
  letter TEXT CHECK (letter IN ('C', 'D', 'E', 'F', 'G', 'A', 'B')),
  harp_octave INTEGER CHECK (harp_octave BETWEEN 0 AND 8),
  from_top INTEGER NOT NULL CHECK (from_top IN (0, 1)),
  closing_strings INTEGER NOT NULL CHECK (closing_strings >= 0),
  station INTEGER NOT NULL CHECK (station >= 0)
) STRICT;
CREATE INDEX open_check_by_harp ON open_check (harp_no);

-- The strings that were asked for by name.
CREATE TABLE open_check_string (
  open_check_no INTEGER NOT NULL REFERENCES open_check ON DELETE CASCADE,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  PRIMARY KEY (open_check_no, place)
) STRICT, WITHOUT ROWID;

-- The recordings of its sessions, counted by file_index of the readings; an empty path: that session was not kept.
CREATE TABLE open_check_recording (
  open_check_no INTEGER NOT NULL REFERENCES open_check ON DELETE CASCADE,
  file_index INTEGER NOT NULL CHECK (file_index >= 0),
  path TEXT NOT NULL,
  PRIMARY KEY (open_check_no, file_index)
) STRICT, WITHOUT ROWID;

CREATE TABLE open_check_reading (
  open_check_no INTEGER NOT NULL REFERENCES open_check ON DELETE CASCADE,
  ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
  station INTEGER NOT NULL CHECK (station >= 0),
  superseded INTEGER NOT NULL CHECK (superseded IN (0, 1)),
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 4),
  file_index INTEGER NOT NULL CHECK (file_index >= 0),
  start_s REAL NOT NULL CHECK (start_s >= 0),
  frequency_hz REAL NOT NULL CHECK (frequency_hz > 0),
  uncertainty_cents REAL NOT NULL CHECK (uncertainty_cents >= 0),
  degrees_of_freedom REAL NOT NULL CHECK (degrees_of_freedom >= 0),
  inharmonicity REAL NOT NULL,
  glide_cents REAL NOT NULL,
  decay_s REAL NOT NULL CHECK (decay_s >= 0),
  snr_db REAL NOT NULL,
  beat_rate_hz REAL CHECK (beat_rate_hz >= 0),
  doubts INTEGER NOT NULL CHECK (doubts BETWEEN 0 AND 1048575),
  PRIMARY KEY (open_check_no, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE open_check_partial (
  open_check_no INTEGER NOT NULL,
  ordinal INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  frequency_hz REAL NOT NULL CHECK (frequency_hz > 0),
  uncertainty_cents REAL NOT NULL CHECK (uncertainty_cents >= 0),
  noise_cents REAL NOT NULL CHECK (noise_cents >= 0),
  level_db REAL NOT NULL,
  decay_s REAL NOT NULL CHECK (decay_s >= 0),
  PRIMARY KEY (open_check_no, ordinal, number),
  FOREIGN KEY (open_check_no, ordinal) REFERENCES open_check_reading ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE TABLE open_check_given_up (
  open_check_no INTEGER NOT NULL REFERENCES open_check ON DELETE CASCADE,
  station INTEGER NOT NULL CHECK (station >= 0),
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 4),
  PRIMARY KEY (open_check_no, station, place, position)
) STRICT, WITHOUT ROWID;
