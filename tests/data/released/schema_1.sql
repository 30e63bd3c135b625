PRAGMA application_id = 1752198000;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE action (
  action_no INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  recorded_utc_ms INTEGER NOT NULL,
  recorded_offset_min INTEGER NOT NULL CHECK (recorded_offset_min BETWEEN -1080 AND 1080),
  computer TEXT NOT NULL,
  what TEXT NOT NULL CHECK (what <> ''),
  undoes_no INTEGER REFERENCES action CHECK (undoes_no <> action_no)
) STRICT;
INSERT INTO "action" VALUES(1,X'01941F2B50C070028AB76E25DC934A01',1735689720000,60,'workshop','added the harp Heron',NULL);
INSERT INTO "action" VALUES(2,X'01941F2D25807004946DDA47B4218EFB',1735689840000,60,'workshop','corrected the harp Heron',NULL);
INSERT INTO "action" VALUES(3,X'01941F2FE4A07007837EFC7AF876F472',1735690020000,60,'workshop','stored a check of 3 readings',NULL);
INSERT INTO "action" VALUES(4,X'01941F32A3C0700AB28F1EAD3CCB5AE9',1735690200000,60,'workshop','stored a check of 0 readings',NULL);
INSERT INTO "action" VALUES(5,X'01941F347880700CBC458ACF14599EE3',1735690320000,60,'workshop','voided a check',NULL);
CREATE TABLE check_ignored (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
  file_index INTEGER NOT NULL CHECK (file_index >= 0),
  start_ms INTEGER NOT NULL CHECK (start_ms >= 0),
  reason TEXT NOT NULL,
  PRIMARY KEY (fact_no, ordinal)
) STRICT, WITHOUT ROWID;
INSERT INTO "check_ignored" VALUES(3,0,0,10,'a knock');
CREATE TABLE check_missing (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 4),
  PRIMARY KEY (fact_no, place, position)
) STRICT, WITHOUT ROWID;
INSERT INTO "check_missing" VALUES(3,53,2);
CREATE TABLE check_partials (
  fact_no INTEGER PRIMARY KEY REFERENCES harp_check,
  encoding INTEGER NOT NULL CHECK (encoding >= 1),
  packed BLOB NOT NULL
) STRICT;
INSERT INTO "check_partials" VALUES(3,1,X'000000');
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
INSERT INTO "check_reading" VALUES(3,9,0,0,0,250,64.2,51234,250,123456,1500,900,345,NULL,0);
INSERT INTO "check_reading" VALUES(3,9,1,0,0,1250,68.0,51234,250,123456,1500,900,345,NULL,0);
INSERT INTO "check_reading" VALUES(3,9,2,0,0,2250,72.2,51234,250,123456,1500,900,345,NULL,2);
CREATE TABLE check_recording (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  file_index INTEGER NOT NULL CHECK (file_index >= 0),
  path TEXT NOT NULL,
  sha256 BLOB NOT NULL CHECK (length(sha256) = 32),
  duration_ms INTEGER NOT NULL CHECK (duration_ms >= 0),
  PRIMARY KEY (fact_no, file_index)
) STRICT, WITHOUT ROWID;
INSERT INTO "check_recording" VALUES(3,0,'/recordings/heron.flac',X'000102030405060708090A0B0C0D0E0F101112131415161718191A1B1C1D1E1F',240000);
CREATE TABLE check_remark (
  fact_no INTEGER NOT NULL REFERENCES harp_check,
  ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
  remark TEXT NOT NULL,
  PRIMARY KEY (fact_no, ordinal)
) STRICT, WITHOUT ROWID;
INSERT INTO "check_remark" VALUES(3,0,'one file');
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
INSERT INTO "check_step" VALUES(3,9,0,-1250000,70000,250);
INSERT INTO "check_step" VALUES(3,9,1,-1250000,70000,250);
INSERT INTO "check_step" VALUES(3,9,2,-2500000,70000,NULL);
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
INSERT INTO "fact" VALUES(1,X'01941F2C3B207003AF122436485A6C7E',1,1,'state',NULL,'');
INSERT INTO "fact" VALUES(2,X'01941F2E0FE07005B9C8905820E8B078',1,2,'state',NULL,'misread');
INSERT INTO "fact" VALUES(3,X'01941F30CF007008A8D9B28B643D16EF',2,3,'state',NULL,'');
INSERT INTO "fact" VALUES(4,X'01941F338E20700B97EAD4BEA8927C66',3,4,'state',NULL,'');
INSERT INTO "fact" VALUES(5,X'01941F3562E0700DA1A040E08020C060',3,5,'void',NULL,'wrong harp');
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
INSERT INTO "harp" VALUES(1,'Hero','hero','pedal','','','007',2009,2100000,'EUR','','two
lines',NULL);
INSERT INTO "harp" VALUES(2,'Heron','heron','pedal','','','007',2009,2100000,'EUR','','two
lines',NULL);
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
INSERT INTO "harp_check" VALUES(3,1,1736000000123,60,'partials-1',441.0,20.5,NULL,'');
INSERT INTO "harp_check" VALUES(4,1,1736100000000,60,'partials-1',440.0,NULL,NULL,'wrong harp');
CREATE TABLE harp_string (
  fact_no INTEGER NOT NULL REFERENCES harp,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  open_alteration INTEGER NOT NULL CHECK (open_alteration BETWEEN -1 AND 1),
  has_natural_disc INTEGER NOT NULL CHECK (has_natural_disc IN (0, 1)),
  has_sharp_disc INTEGER NOT NULL CHECK (has_sharp_disc IN (0, 1)),
  PRIMARY KEY (fact_no, place)
) STRICT, WITHOUT ROWID;
INSERT INTO "harp_string" VALUES(1,7,-1,0,0);
INSERT INTO "harp_string" VALUES(1,8,-1,0,0);
INSERT INTO "harp_string" VALUES(1,9,-1,1,1);
INSERT INTO "harp_string" VALUES(1,10,-1,1,1);
INSERT INTO "harp_string" VALUES(1,11,-1,1,1);
INSERT INTO "harp_string" VALUES(1,12,-1,1,1);
INSERT INTO "harp_string" VALUES(1,13,-1,1,1);
INSERT INTO "harp_string" VALUES(1,14,-1,1,1);
INSERT INTO "harp_string" VALUES(1,15,-1,1,1);
INSERT INTO "harp_string" VALUES(1,16,-1,1,1);
INSERT INTO "harp_string" VALUES(1,17,-1,1,1);
INSERT INTO "harp_string" VALUES(1,18,-1,1,1);
INSERT INTO "harp_string" VALUES(1,19,-1,1,1);
INSERT INTO "harp_string" VALUES(1,20,-1,1,1);
INSERT INTO "harp_string" VALUES(1,21,-1,1,1);
INSERT INTO "harp_string" VALUES(1,22,-1,1,1);
INSERT INTO "harp_string" VALUES(1,23,-1,1,1);
INSERT INTO "harp_string" VALUES(1,24,-1,1,1);
INSERT INTO "harp_string" VALUES(1,25,-1,1,1);
INSERT INTO "harp_string" VALUES(1,26,-1,1,1);
INSERT INTO "harp_string" VALUES(1,27,-1,1,1);
INSERT INTO "harp_string" VALUES(1,28,-1,1,1);
INSERT INTO "harp_string" VALUES(1,29,-1,1,1);
INSERT INTO "harp_string" VALUES(1,30,-1,1,1);
INSERT INTO "harp_string" VALUES(1,31,-1,1,1);
INSERT INTO "harp_string" VALUES(1,32,-1,1,1);
INSERT INTO "harp_string" VALUES(1,33,-1,1,1);
INSERT INTO "harp_string" VALUES(1,34,-1,1,1);
INSERT INTO "harp_string" VALUES(1,35,-1,1,1);
INSERT INTO "harp_string" VALUES(1,36,-1,1,1);
INSERT INTO "harp_string" VALUES(1,37,-1,1,1);
INSERT INTO "harp_string" VALUES(1,38,-1,1,1);
INSERT INTO "harp_string" VALUES(1,39,-1,1,1);
INSERT INTO "harp_string" VALUES(1,40,-1,1,1);
INSERT INTO "harp_string" VALUES(1,41,-1,1,1);
INSERT INTO "harp_string" VALUES(1,42,-1,1,1);
INSERT INTO "harp_string" VALUES(1,43,-1,1,1);
INSERT INTO "harp_string" VALUES(1,44,-1,1,1);
INSERT INTO "harp_string" VALUES(1,45,-1,1,1);
INSERT INTO "harp_string" VALUES(1,46,-1,1,1);
INSERT INTO "harp_string" VALUES(1,47,-1,1,1);
INSERT INTO "harp_string" VALUES(1,48,-1,1,1);
INSERT INTO "harp_string" VALUES(1,49,-1,1,1);
INSERT INTO "harp_string" VALUES(1,50,-1,1,1);
INSERT INTO "harp_string" VALUES(1,51,-1,1,1);
INSERT INTO "harp_string" VALUES(1,52,-1,1,1);
INSERT INTO "harp_string" VALUES(1,53,-1,1,1);
INSERT INTO "harp_string" VALUES(2,7,-1,0,0);
INSERT INTO "harp_string" VALUES(2,8,-1,0,0);
INSERT INTO "harp_string" VALUES(2,9,-1,1,1);
INSERT INTO "harp_string" VALUES(2,10,-1,1,1);
INSERT INTO "harp_string" VALUES(2,11,-1,1,1);
INSERT INTO "harp_string" VALUES(2,12,-1,1,1);
INSERT INTO "harp_string" VALUES(2,13,-1,1,1);
INSERT INTO "harp_string" VALUES(2,14,-1,1,1);
INSERT INTO "harp_string" VALUES(2,15,-1,1,1);
INSERT INTO "harp_string" VALUES(2,16,-1,1,1);
INSERT INTO "harp_string" VALUES(2,17,-1,1,1);
INSERT INTO "harp_string" VALUES(2,18,-1,1,1);
INSERT INTO "harp_string" VALUES(2,19,-1,1,1);
INSERT INTO "harp_string" VALUES(2,20,-1,1,1);
INSERT INTO "harp_string" VALUES(2,21,-1,1,1);
INSERT INTO "harp_string" VALUES(2,22,-1,1,1);
INSERT INTO "harp_string" VALUES(2,23,-1,1,1);
INSERT INTO "harp_string" VALUES(2,24,-1,1,1);
INSERT INTO "harp_string" VALUES(2,25,-1,1,1);
INSERT INTO "harp_string" VALUES(2,26,-1,1,1);
INSERT INTO "harp_string" VALUES(2,27,-1,1,1);
INSERT INTO "harp_string" VALUES(2,28,-1,1,1);
INSERT INTO "harp_string" VALUES(2,29,-1,1,1);
INSERT INTO "harp_string" VALUES(2,30,-1,1,1);
INSERT INTO "harp_string" VALUES(2,31,-1,1,1);
INSERT INTO "harp_string" VALUES(2,32,-1,1,1);
INSERT INTO "harp_string" VALUES(2,33,-1,1,1);
INSERT INTO "harp_string" VALUES(2,34,-1,1,1);
INSERT INTO "harp_string" VALUES(2,35,-1,1,1);
INSERT INTO "harp_string" VALUES(2,36,-1,1,1);
INSERT INTO "harp_string" VALUES(2,37,-1,1,1);
INSERT INTO "harp_string" VALUES(2,38,-1,1,1);
INSERT INTO "harp_string" VALUES(2,39,-1,1,1);
INSERT INTO "harp_string" VALUES(2,40,-1,1,1);
INSERT INTO "harp_string" VALUES(2,41,-1,1,1);
INSERT INTO "harp_string" VALUES(2,42,-1,1,1);
INSERT INTO "harp_string" VALUES(2,43,-1,1,1);
INSERT INTO "harp_string" VALUES(2,44,-1,1,1);
INSERT INTO "harp_string" VALUES(2,45,-1,1,1);
INSERT INTO "harp_string" VALUES(2,46,-1,1,1);
INSERT INTO "harp_string" VALUES(2,47,-1,1,1);
INSERT INTO "harp_string" VALUES(2,48,-1,1,1);
INSERT INTO "harp_string" VALUES(2,49,-1,1,1);
INSERT INTO "harp_string" VALUES(2,50,-1,1,1);
INSERT INTO "harp_string" VALUES(2,51,-1,1,1);
INSERT INTO "harp_string" VALUES(2,52,-1,1,1);
INSERT INTO "harp_string" VALUES(2,53,-1,1,1);
CREATE TABLE ledger (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  id BLOB NOT NULL CHECK (length(id) = 16),
  created_utc_ms INTEGER NOT NULL,
  created_offset_min INTEGER NOT NULL CHECK (created_offset_min BETWEEN -1080 AND 1080)
) STRICT;
INSERT INTO "ledger" VALUES(1,X'01941F2A66607001A55CB81470CC2884',1735689600000,60);
CREATE TABLE supersession (
  fact_no INTEGER NOT NULL REFERENCES fact,
  superseded_no INTEGER NOT NULL REFERENCES fact,
  PRIMARY KEY (superseded_no, fact_no),
  CHECK (fact_no <> superseded_no)
) STRICT, WITHOUT ROWID;
INSERT INTO "supersession" VALUES(2,1);
INSERT INTO "supersession" VALUES(5,4);
CREATE TABLE thing (
  thing_no INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  kind TEXT NOT NULL REFERENCES thing_kind
) STRICT;
INSERT INTO "thing" VALUES(1,X'01941F2A66607001A55CB81470CC2884','harp');
INSERT INTO "thing" VALUES(2,X'01941F2EFA4070069E2346698CAFD2F5','check');
INSERT INTO "thing" VALUES(3,X'01941F31B96070098D34689CD004386C','check');
CREATE TABLE thing_kind (name TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO "thing_kind" VALUES('check');
INSERT INTO "thing_kind" VALUES('harp');
CREATE INDEX action_by_undone ON action (undoes_no) WHERE undoes_no IS NOT NULL;
CREATE INDEX thing_by_handle ON thing (substr(hex(id), 25));
CREATE INDEX fact_by_thing ON fact (thing_no);
CREATE INDEX fact_by_action ON fact (action_no);
CREATE INDEX supersession_by_fact ON supersession (fact_no);
CREATE VIEW head_fact AS
SELECT f.fact_no, f.id, f.thing_no, f.action_no, f.effect, coalesce(f.restores_no, f.fact_no) AS content_no
  FROM fact f
 WHERE NOT EXISTS (SELECT 1 FROM supersession s WHERE s.superseded_no = f.fact_no);
CREATE VIEW current_fact AS
SELECT h.thing_no, h.fact_no, h.content_no
  FROM head_fact h
 WHERE h.effect <> 'void'
   AND NOT EXISTS (SELECT 1 FROM head_fact other
                    WHERE other.thing_no = h.thing_no AND other.effect <> 'void' AND other.id > h.id);
CREATE VIEW current_content AS
SELECT f.fact_no, c.thing_no, t.id, c.fact_no AS head_no
  FROM fact f
  JOIN current_fact c ON c.thing_no = f.thing_no AND c.content_no = f.fact_no
  JOIN thing t ON t.thing_no = c.thing_no;
CREATE INDEX harp_by_name ON harp (name_key);
CREATE INDEX harp_check_by_harp ON harp_check (harp_no, taken_utc_ms);
CREATE TRIGGER no_UPDATE_of_ledger BEFORE UPDATE ON ledger BEGIN SELECT RAISE(ABORT, 'rows of ledger are never changed'); END;
CREATE TRIGGER no_DELETE_of_ledger BEFORE DELETE ON ledger BEGIN SELECT RAISE(ABORT, 'rows of ledger are never changed'); END;
CREATE TRIGGER no_UPDATE_of_action BEFORE UPDATE ON action BEGIN SELECT RAISE(ABORT, 'rows of action are never changed'); END;
CREATE TRIGGER no_DELETE_of_action BEFORE DELETE ON action BEGIN SELECT RAISE(ABORT, 'rows of action are never changed'); END;
CREATE TRIGGER no_UPDATE_of_thing_kind BEFORE UPDATE ON thing_kind BEGIN SELECT RAISE(ABORT, 'rows of thing_kind are never changed'); END;
CREATE TRIGGER no_DELETE_of_thing_kind BEFORE DELETE ON thing_kind BEGIN SELECT RAISE(ABORT, 'rows of thing_kind are never changed'); END;
CREATE TRIGGER no_UPDATE_of_thing BEFORE UPDATE ON thing BEGIN SELECT RAISE(ABORT, 'rows of thing are never changed'); END;
CREATE TRIGGER no_DELETE_of_thing BEFORE DELETE ON thing BEGIN SELECT RAISE(ABORT, 'rows of thing are never changed'); END;
CREATE TRIGGER no_UPDATE_of_fact BEFORE UPDATE ON fact BEGIN SELECT RAISE(ABORT, 'rows of fact are never changed'); END;
CREATE TRIGGER no_DELETE_of_fact BEFORE DELETE ON fact BEGIN SELECT RAISE(ABORT, 'rows of fact are never changed'); END;
CREATE TRIGGER no_UPDATE_of_supersession BEFORE UPDATE ON supersession BEGIN SELECT RAISE(ABORT, 'rows of supersession are never changed'); END;
CREATE TRIGGER no_DELETE_of_supersession BEFORE DELETE ON supersession BEGIN SELECT RAISE(ABORT, 'rows of supersession are never changed'); END;
CREATE TRIGGER no_UPDATE_of_harp BEFORE UPDATE ON harp BEGIN SELECT RAISE(ABORT, 'rows of harp are never changed'); END;
CREATE TRIGGER no_DELETE_of_harp BEFORE DELETE ON harp BEGIN SELECT RAISE(ABORT, 'rows of harp are never changed'); END;
CREATE TRIGGER no_UPDATE_of_harp_string BEFORE UPDATE ON harp_string BEGIN SELECT RAISE(ABORT, 'rows of harp_string are never changed'); END;
CREATE TRIGGER no_DELETE_of_harp_string BEFORE DELETE ON harp_string BEGIN SELECT RAISE(ABORT, 'rows of harp_string are never changed'); END;
CREATE TRIGGER no_UPDATE_of_harp_check BEFORE UPDATE ON harp_check BEGIN SELECT RAISE(ABORT, 'rows of harp_check are never changed'); END;
CREATE TRIGGER no_DELETE_of_harp_check BEFORE DELETE ON harp_check BEGIN SELECT RAISE(ABORT, 'rows of harp_check are never changed'); END;
CREATE TRIGGER no_UPDATE_of_check_recording BEFORE UPDATE ON check_recording BEGIN SELECT RAISE(ABORT, 'rows of check_recording are never changed'); END;
CREATE TRIGGER no_DELETE_of_check_recording BEFORE DELETE ON check_recording BEGIN SELECT RAISE(ABORT, 'rows of check_recording are never changed'); END;
CREATE TRIGGER no_UPDATE_of_check_reading BEFORE UPDATE ON check_reading BEGIN SELECT RAISE(ABORT, 'rows of check_reading are never changed'); END;
CREATE TRIGGER no_DELETE_of_check_reading BEFORE DELETE ON check_reading BEGIN SELECT RAISE(ABORT, 'rows of check_reading are never changed'); END;
CREATE TRIGGER no_UPDATE_of_check_partials BEFORE UPDATE ON check_partials BEGIN SELECT RAISE(ABORT, 'rows of check_partials are never changed'); END;
CREATE TRIGGER no_DELETE_of_check_partials BEFORE DELETE ON check_partials BEGIN SELECT RAISE(ABORT, 'rows of check_partials are never changed'); END;
CREATE TRIGGER no_UPDATE_of_check_step BEFORE UPDATE ON check_step BEGIN SELECT RAISE(ABORT, 'rows of check_step are never changed'); END;
CREATE TRIGGER no_DELETE_of_check_step BEFORE DELETE ON check_step BEGIN SELECT RAISE(ABORT, 'rows of check_step are never changed'); END;
CREATE TRIGGER no_UPDATE_of_check_missing BEFORE UPDATE ON check_missing BEGIN SELECT RAISE(ABORT, 'rows of check_missing are never changed'); END;
CREATE TRIGGER no_DELETE_of_check_missing BEFORE DELETE ON check_missing BEGIN SELECT RAISE(ABORT, 'rows of check_missing are never changed'); END;
CREATE TRIGGER no_UPDATE_of_check_ignored BEFORE UPDATE ON check_ignored BEGIN SELECT RAISE(ABORT, 'rows of check_ignored are never changed'); END;
CREATE TRIGGER no_DELETE_of_check_ignored BEFORE DELETE ON check_ignored BEGIN SELECT RAISE(ABORT, 'rows of check_ignored are never changed'); END;
CREATE TRIGGER no_UPDATE_of_check_remark BEFORE UPDATE ON check_remark BEGIN SELECT RAISE(ABORT, 'rows of check_remark are never changed'); END;
CREATE TRIGGER no_DELETE_of_check_remark BEFORE DELETE ON check_remark BEGIN SELECT RAISE(ABORT, 'rows of check_remark are never changed'); END;
COMMIT;
