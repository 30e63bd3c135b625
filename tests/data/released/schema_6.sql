PRAGMA application_id = 1752198000;
PRAGMA user_version = 6;
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
INSERT INTO "action" VALUES(6,X'01941F3737A0700FAB56AC0258AE045A',1735690500000,60,'workshop','added the room Hall',NULL);
INSERT INTO "action" VALUES(7,X'01941F39F6C070129A67CE359C036AD1',1735690680000,60,'workshop','moved a harp to a room',NULL);
INSERT INTO "action" VALUES(8,X'01941F3CB5E070158978F068E058D048',1735690860000,60,'workshop','lent a harp',NULL);
INSERT INTO "action" VALUES(9,X'01941F3F75007018B889129B24AD36BF',1735691040000,60,'workshop','brought a harp back',NULL);
INSERT INTO "action" VALUES(10,X'01941F423420701BA79A34CE68029C36',1735691220000,60,'workshop','planned 1 string',NULL);
INSERT INTO "action" VALUES(11,X'01941F44F340701E96AB5601AC5702AD',1735691400000,60,'workshop','put a gut string on 3A',NULL);
INSERT INTO "action" VALUES(12,X'01941F47B260702185BC7834F0AC6824',1735691580000,60,'workshop','took the string off 3A (broke)',NULL);
INSERT INTO "action" VALUES(13,X'01941F4A71807024B4CD9A673401CE9B',1735691760000,60,'workshop','noted a visit',NULL);
INSERT INTO "action" VALUES(14,X'01941F4D30A07027A3DEBC9A78563412',1735691940000,60,'workshop','noted the climate',NULL);
INSERT INTO "action" VALUES(15,X'01941F4FEFC0702A92EFDECDBCAB9A89',1735692120000,60,'workshop','bought 2 gut strings for 3A',NULL);
INSERT INTO "action" VALUES(16,X'01941F52AEE0702D8100000000000000',1735692300000,60,'workshop','wrote a note',NULL);
INSERT INTO "action" VALUES(17,X'01941F556E007030B011223344556677',1735692480000,60,'workshop','set a reminder',NULL);
INSERT INTO "action" VALUES(18,X'01941F582D2070339F22446688AACCEE',1735692660000,60,'workshop','did what a reminder asked for',NULL);
INSERT INTO "action" VALUES(19,X'01941F5AEC4070368E336699CCFF3265',1735692840000,60,'workshop','set example',NULL);
INSERT INTO "action" VALUES(20,X'01941F5CC100703898E9D2BBA48D765F',1735692960000,60,'workshop','undid: set example',19);
INSERT INTO "action" VALUES(21,X'01941F5E95C0703AA29F3EDD7C1BBA59',1735693080000,60,'workshop','set example',NULL);
CREATE TABLE attachment (
  sha256 BLOB PRIMARY KEY CHECK (length(sha256) = 32),
  content BLOB NOT NULL
) STRICT;
INSERT INTO "attachment" VALUES(X'FE1A4AB1FB6347036BEAD73597D5D2958B26AC0B96F68CA2F6DCEE53A50F297E',X'6E6F74207265616C6C7920612070696374757265');
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
INSERT INTO "check_partials" VALUES(3,2,X'0300010000030082000001000001001B01000001005F0100370100000100000000');
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
CREATE TABLE climate_sample (
  fact_no INTEGER NOT NULL REFERENCES climate_series,
  taken_utc_ms INTEGER NOT NULL,
  taken_offset_min INTEGER NOT NULL CHECK (taken_offset_min BETWEEN -1080 AND 1080),
  temperature_c REAL CHECK (temperature_c BETWEEN -60 AND 80),
  humidity_percent REAL CHECK (humidity_percent BETWEEN 0 AND 100),
  PRIMARY KEY (fact_no, taken_utc_ms),
  CHECK (temperature_c IS NOT NULL OR humidity_percent IS NOT NULL)
) STRICT, WITHOUT ROWID;
INSERT INTO "climate_sample" VALUES(14,1736000000000,60,20.0,45.5);
CREATE TABLE climate_series (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  room_no INTEGER REFERENCES thing,
  harp_no INTEGER REFERENCES thing,
  source TEXT NOT NULL,
  CHECK ((room_no IS NULL) <> (harp_no IS NULL))
) STRICT;
INSERT INTO "climate_series" VALUES(14,4,NULL,'by hand');
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
INSERT INTO "fact" VALUES(6,X'01941F382200701090B16213C47526D7',4,6,'state',NULL,'');
INSERT INTO "fact" VALUES(7,X'01941F3AE1207013BFC2844608CA8C4E',5,7,'state',NULL,'');
INSERT INTO "fact" VALUES(8,X'01941F3DA0407016AED3A6794C1FF2C5',6,8,'state',NULL,'');
INSERT INTO "fact" VALUES(9,X'01941F405F6070199DE4C8AC9074583C',7,9,'state',NULL,'');
INSERT INTO "fact" VALUES(10,X'01941F431E80701C8CF5EADFD4C9BEB3',8,10,'state',NULL,'');
INSERT INTO "fact" VALUES(11,X'01941F45DDA0701FBB060C12181E242A',9,11,'state',NULL,'');
INSERT INTO "fact" VALUES(12,X'01941F489CC07022AA172E455C738AA1',10,12,'state',NULL,'');
INSERT INTO "fact" VALUES(13,X'01941F4B5BE0702599285078A0C8F018',11,13,'state',NULL,'');
INSERT INTO "fact" VALUES(14,X'01941F4E1B007028883972ABE41D568F',12,14,'state',NULL,'');
INSERT INTO "fact" VALUES(15,X'01941F50DA20702BB74A94DE2872BC06',13,15,'state',NULL,'');
INSERT INTO "fact" VALUES(16,X'01941F539940702EA65BB6116CC7227D',14,16,'state',NULL,'');
INSERT INTO "fact" VALUES(17,X'01941F5658607031956CD844B01C88F4',15,17,'state',NULL,'');
INSERT INTO "fact" VALUES(18,X'01941F5917807034847DFA77F471EE6B',16,18,'state',NULL,'');
INSERT INTO "fact" VALUES(19,X'01941F5BD6A07037B38E1CAA38C654E2',17,19,'state',NULL,'');
INSERT INTO "fact" VALUES(20,X'01941F5DAB607039BD4488CC105498DC',17,20,'void',NULL,'undone');
INSERT INTO "fact" VALUES(21,X'01941F5F8020703B87FAF4EEE8E2DCD6',17,21,'restore',19,'');
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
INSERT INTO "loan" VALUES(8,1,'a pupil','2025-02-01','2025-07','a scratch','');
CREATE TABLE loan_return (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  loan_no INTEGER NOT NULL REFERENCES thing,
  returned_on TEXT NOT NULL
    CHECK (date(substr(returned_on || '-01-01', 1, 10), '+0 days') || substr(returned_on, 11) IS substr(returned_on || '-01-01', 1, 10)),
  condition_back TEXT NOT NULL
) STRICT;
INSERT INTO "loan_return" VALUES(9,6,'2025-06-30','as before');
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
INSERT INTO "mounted_string" VALUES(11,1,33,'gut',1.02,'',NULL,NULL,NULL,'','B7',480,'EUR','2024-02-29',NULL,'');
CREATE TABLE note (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  about_no INTEGER REFERENCES thing,
  place INTEGER CHECK (place BETWEEN 0 AND 62),
  noted_on TEXT NOT NULL
    CHECK (date(substr(noted_on || '-01-01', 1, 10), '+0 days') || substr(noted_on, 11) IS substr(noted_on || '-01-01', 1, 10)),
  words TEXT NOT NULL
) STRICT;
INSERT INTO "note" VALUES(16,1,NULL,'2025-01-02','see picture');
CREATE TABLE note_attachment (
  fact_no INTEGER NOT NULL REFERENCES note,
  ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
  file_name TEXT NOT NULL CHECK (file_name <> ''),
  sha256 BLOB NOT NULL REFERENCES attachment,
  PRIMARY KEY (fact_no, ordinal)
) STRICT, WITHOUT ROWID;
INSERT INTO "note_attachment" VALUES(16,0,'photo.jpg',X'FE1A4AB1FB6347036BEAD73597D5D2958B26AC0B96F68CA2F6DCEE53A50F297E');
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
INSERT INTO "open_check" VALUES(1,X'01941F606A80703CAC55AAFF54A9FE53',1,1736000000000,60,'partials-1',440.0,'pass-by-pass',NULL,NULL,0,5,0);
CREATE TABLE open_check_given_up (
  open_check_no INTEGER NOT NULL REFERENCES open_check ON DELETE CASCADE,
  station INTEGER NOT NULL CHECK (station >= 0),
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 4),
  PRIMARY KEY (open_check_no, station, place, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE open_check_partial (
  open_check_no INTEGER NOT NULL,
  ordinal INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  frequency_hz REAL NOT NULL CHECK (frequency_hz > 0),
  uncertainty_cents REAL NOT NULL CHECK (uncertainty_cents >= 0),
  noise_cents REAL NOT NULL CHECK (noise_cents >= 0),
  level_db REAL NOT NULL,
  decay_s REAL NOT NULL CHECK (decay_s >= 0), glide_cents REAL NOT NULL DEFAULT 0,
  PRIMARY KEY (open_check_no, ordinal, number),
  FOREIGN KEY (open_check_no, ordinal) REFERENCES open_check_reading ON DELETE CASCADE
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
  doubts INTEGER NOT NULL CHECK (doubts BETWEEN 0 AND 1048575), glide_uncertainty_cents REAL NOT NULL DEFAULT 0 CHECK (glide_uncertainty_cents >= 0),
  PRIMARY KEY (open_check_no, ordinal)
) STRICT, WITHOUT ROWID;
INSERT INTO "open_check_reading" VALUES(1,0,0,0,9,0,0,0.5,64.2,0.05,25.0,0.0001,1.5,0.9,34.5,NULL,0,0.0);
CREATE TABLE open_check_recording (
  open_check_no INTEGER NOT NULL REFERENCES open_check ON DELETE CASCADE,
  file_index INTEGER NOT NULL CHECK (file_index >= 0),
  path TEXT NOT NULL,
  PRIMARY KEY (open_check_no, file_index)
) STRICT, WITHOUT ROWID;
CREATE TABLE open_check_string (
  open_check_no INTEGER NOT NULL REFERENCES open_check ON DELETE CASCADE,
  place INTEGER NOT NULL CHECK (place BETWEEN 0 AND 62),
  PRIMARY KEY (open_check_no, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE placement (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER NOT NULL REFERENCES thing,
  room_no INTEGER REFERENCES thing,
  since_on TEXT NOT NULL
    CHECK (date(substr(since_on || '-01-01', 1, 10), '+0 days') || substr(since_on, 11) IS substr(since_on || '-01-01', 1, 10))
) STRICT;
INSERT INTO "placement" VALUES(7,1,4,'2025-01');
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
INSERT INTO "planned_string" VALUES(10,1,33,'gut',1.02,'',NULL,NULL,NULL,'',612.5);
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
INSERT INTO "reminder" VALUES(17,NULL,'order strings',NULL,6,'done','2025-01',NULL);
CREATE TABLE reminder_done (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  reminder_no INTEGER NOT NULL REFERENCES thing,
  done_on TEXT NOT NULL
    CHECK (date(substr(done_on || '-01-01', 1, 10), '+0 days') || substr(done_on, 11) IS substr(done_on || '-01-01', 1, 10)),
  remarks TEXT NOT NULL
) STRICT;
INSERT INTO "reminder_done" VALUES(18,15,'2025-07-01','');
CREATE TABLE room (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  name TEXT NOT NULL CHECK (name <> ''),
  name_key TEXT NOT NULL CHECK (name_key <> ''),
  remarks TEXT NOT NULL
) STRICT;
INSERT INTO "room" VALUES(6,'Hall','hall','');
CREATE TABLE setting (
  fact_no INTEGER PRIMARY KEY REFERENCES fact,
  harp_no INTEGER REFERENCES thing,
  name TEXT NOT NULL CHECK (name <> ''),
  value_json TEXT NOT NULL CHECK (value_json <> '')
) STRICT;
INSERT INTO "setting" VALUES(19,NULL,'example','[1, 2.5]');
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
INSERT INTO "spare_movement" VALUES(15,NULL,33,'gut',1.02,'',NULL,NULL,NULL,'','',2,'bought','2025-01',NULL,NULL,NULL,'');
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
INSERT INTO "string_removal" VALUES(12,9,'2025-03','broke','disc','');
CREATE TABLE supersession (
  fact_no INTEGER NOT NULL REFERENCES fact,
  superseded_no INTEGER NOT NULL REFERENCES fact,
  PRIMARY KEY (superseded_no, fact_no),
  CHECK (fact_no <> superseded_no)
) STRICT, WITHOUT ROWID;
INSERT INTO "supersession" VALUES(2,1);
INSERT INTO "supersession" VALUES(5,4);
INSERT INTO "supersession" VALUES(20,19);
INSERT INTO "supersession" VALUES(21,20);
CREATE TABLE thing (
  thing_no INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  kind TEXT NOT NULL REFERENCES thing_kind
) STRICT;
INSERT INTO "thing" VALUES(1,X'01941F2A66607001A55CB81470CC2884','harp');
INSERT INTO "thing" VALUES(2,X'01941F2EFA4070069E2346698CAFD2F5','check');
INSERT INTO "thing" VALUES(3,X'01941F31B96070098D34689CD004386C','check');
INSERT INTO "thing" VALUES(4,X'01941F364D40700E86FBF6F1ECE7E2DD','room');
INSERT INTO "thing" VALUES(5,X'01941F390C607011B50C1824303C4854','placement');
INSERT INTO "thing" VALUES(6,X'01941F3BCB807014A41D3A577491AECB','loan');
INSERT INTO "thing" VALUES(7,X'01941F3E8AA07017932E5C8AB8E61442','loan_return');
INSERT INTO "thing" VALUES(8,X'01941F4149C0701A823F7EBDFC3B7AB9','planned_string');
INSERT INTO "thing" VALUES(9,X'01941F4408E0701DB150A0F04090E030','string');
INSERT INTO "thing" VALUES(10,X'01941F46C8007020A061C22384E546A7','string_removal');
INSERT INTO "thing" VALUES(11,X'01941F49872070238F72E456C83AAC1E','visit');
INSERT INTO "thing" VALUES(12,X'01941F4C46407026BE8306890C8F1295','climate_series');
INSERT INTO "thing" VALUES(13,X'01941F4F05607029AD9428BC50E4780C','spare_movement');
INSERT INTO "thing" VALUES(14,X'01941F51C480702C9CA54AEF9439DE83','note');
INSERT INTO "thing" VALUES(15,X'01941F5483A0702F8BB66C22D88E44FA','reminder');
INSERT INTO "thing" VALUES(16,X'01941F5742C07032BAC78E551CE3AA71','reminder_done');
INSERT INTO "thing" VALUES(17,X'01941F5A01E07035A9D8B088603810E8','setting');
CREATE TABLE thing_kind (name TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO "thing_kind" VALUES('check');
INSERT INTO "thing_kind" VALUES('climate_series');
INSERT INTO "thing_kind" VALUES('harp');
INSERT INTO "thing_kind" VALUES('loan');
INSERT INTO "thing_kind" VALUES('loan_return');
INSERT INTO "thing_kind" VALUES('note');
INSERT INTO "thing_kind" VALUES('placement');
INSERT INTO "thing_kind" VALUES('planned_string');
INSERT INTO "thing_kind" VALUES('reminder');
INSERT INTO "thing_kind" VALUES('reminder_done');
INSERT INTO "thing_kind" VALUES('room');
INSERT INTO "thing_kind" VALUES('setting');
INSERT INTO "thing_kind" VALUES('spare_movement');
INSERT INTO "thing_kind" VALUES('string');
INSERT INTO "thing_kind" VALUES('string_removal');
INSERT INTO "thing_kind" VALUES('visit');
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
INSERT INTO "visit" VALUES(13,1,'2025-05-05','the technician',18000,'EUR','');
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
INSERT INTO "visit_work" VALUES(13,0,33,NULL,'new disc','1 disc');
INSERT INTO "visit_work" VALUES(13,1,NULL,'F','felt replaced','');
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
CREATE INDEX room_by_name ON room (name_key);
CREATE INDEX placement_by_harp ON placement (harp_no);
CREATE INDEX placement_by_room ON placement (room_no);
CREATE INDEX loan_by_harp ON loan (harp_no);
CREATE INDEX loan_return_by_loan ON loan_return (loan_no);
CREATE INDEX planned_string_by_harp ON planned_string (harp_no, place);
CREATE INDEX mounted_string_by_harp ON mounted_string (harp_no, place);
CREATE INDEX string_removal_by_string ON string_removal (string_no);
CREATE INDEX visit_by_harp ON visit (harp_no);
CREATE INDEX climate_series_by_room ON climate_series (room_no);
CREATE INDEX climate_series_by_harp ON climate_series (harp_no);
CREATE INDEX spare_movement_by_place ON spare_movement (place);
CREATE INDEX note_by_subject ON note (about_no);
CREATE INDEX reminder_by_harp ON reminder (harp_no);
CREATE INDEX reminder_done_by_reminder ON reminder_done (reminder_no);
CREATE INDEX setting_by_name ON setting (name, harp_no);
CREATE TRIGGER no_UPDATE_of_room BEFORE UPDATE ON room BEGIN SELECT RAISE(ABORT, 'rows of room are never changed'); END;
CREATE TRIGGER no_DELETE_of_room BEFORE DELETE ON room BEGIN SELECT RAISE(ABORT, 'rows of room are never changed'); END;
CREATE TRIGGER no_UPDATE_of_placement BEFORE UPDATE ON placement BEGIN SELECT RAISE(ABORT, 'rows of placement are never changed'); END;
CREATE TRIGGER no_DELETE_of_placement BEFORE DELETE ON placement BEGIN SELECT RAISE(ABORT, 'rows of placement are never changed'); END;
CREATE TRIGGER no_UPDATE_of_loan BEFORE UPDATE ON loan BEGIN SELECT RAISE(ABORT, 'rows of loan are never changed'); END;
CREATE TRIGGER no_DELETE_of_loan BEFORE DELETE ON loan BEGIN SELECT RAISE(ABORT, 'rows of loan are never changed'); END;
CREATE TRIGGER no_UPDATE_of_loan_return BEFORE UPDATE ON loan_return BEGIN SELECT RAISE(ABORT, 'rows of loan_return are never changed'); END;
CREATE TRIGGER no_DELETE_of_loan_return BEFORE DELETE ON loan_return BEGIN SELECT RAISE(ABORT, 'rows of loan_return are never changed'); END;
CREATE TRIGGER no_UPDATE_of_planned_string BEFORE UPDATE ON planned_string BEGIN SELECT RAISE(ABORT, 'rows of planned_string are never changed'); END;
CREATE TRIGGER no_DELETE_of_planned_string BEFORE DELETE ON planned_string BEGIN SELECT RAISE(ABORT, 'rows of planned_string are never changed'); END;
CREATE TRIGGER no_UPDATE_of_mounted_string BEFORE UPDATE ON mounted_string BEGIN SELECT RAISE(ABORT, 'rows of mounted_string are never changed'); END;
CREATE TRIGGER no_DELETE_of_mounted_string BEFORE DELETE ON mounted_string BEGIN SELECT RAISE(ABORT, 'rows of mounted_string are never changed'); END;
CREATE TRIGGER no_UPDATE_of_string_removal BEFORE UPDATE ON string_removal BEGIN SELECT RAISE(ABORT, 'rows of string_removal are never changed'); END;
CREATE TRIGGER no_DELETE_of_string_removal BEFORE DELETE ON string_removal BEGIN SELECT RAISE(ABORT, 'rows of string_removal are never changed'); END;
CREATE TRIGGER no_UPDATE_of_visit BEFORE UPDATE ON visit BEGIN SELECT RAISE(ABORT, 'rows of visit are never changed'); END;
CREATE TRIGGER no_DELETE_of_visit BEFORE DELETE ON visit BEGIN SELECT RAISE(ABORT, 'rows of visit are never changed'); END;
CREATE TRIGGER no_UPDATE_of_visit_work BEFORE UPDATE ON visit_work BEGIN SELECT RAISE(ABORT, 'rows of visit_work are never changed'); END;
CREATE TRIGGER no_DELETE_of_visit_work BEFORE DELETE ON visit_work BEGIN SELECT RAISE(ABORT, 'rows of visit_work are never changed'); END;
CREATE TRIGGER no_UPDATE_of_climate_series BEFORE UPDATE ON climate_series BEGIN SELECT RAISE(ABORT, 'rows of climate_series are never changed'); END;
CREATE TRIGGER no_DELETE_of_climate_series BEFORE DELETE ON climate_series BEGIN SELECT RAISE(ABORT, 'rows of climate_series are never changed'); END;
CREATE TRIGGER no_UPDATE_of_climate_sample BEFORE UPDATE ON climate_sample BEGIN SELECT RAISE(ABORT, 'rows of climate_sample are never changed'); END;
CREATE TRIGGER no_DELETE_of_climate_sample BEFORE DELETE ON climate_sample BEGIN SELECT RAISE(ABORT, 'rows of climate_sample are never changed'); END;
CREATE TRIGGER no_UPDATE_of_spare_movement BEFORE UPDATE ON spare_movement BEGIN SELECT RAISE(ABORT, 'rows of spare_movement are never changed'); END;
CREATE TRIGGER no_DELETE_of_spare_movement BEFORE DELETE ON spare_movement BEGIN SELECT RAISE(ABORT, 'rows of spare_movement are never changed'); END;
CREATE TRIGGER no_UPDATE_of_attachment BEFORE UPDATE ON attachment BEGIN SELECT RAISE(ABORT, 'rows of attachment are never changed'); END;
CREATE TRIGGER no_DELETE_of_attachment BEFORE DELETE ON attachment BEGIN SELECT RAISE(ABORT, 'rows of attachment are never changed'); END;
CREATE TRIGGER no_UPDATE_of_note BEFORE UPDATE ON note BEGIN SELECT RAISE(ABORT, 'rows of note are never changed'); END;
CREATE TRIGGER no_DELETE_of_note BEFORE DELETE ON note BEGIN SELECT RAISE(ABORT, 'rows of note are never changed'); END;
CREATE TRIGGER no_UPDATE_of_note_attachment BEFORE UPDATE ON note_attachment BEGIN SELECT RAISE(ABORT, 'rows of note_attachment are never changed'); END;
CREATE TRIGGER no_DELETE_of_note_attachment BEFORE DELETE ON note_attachment BEGIN SELECT RAISE(ABORT, 'rows of note_attachment are never changed'); END;
CREATE TRIGGER no_UPDATE_of_reminder BEFORE UPDATE ON reminder BEGIN SELECT RAISE(ABORT, 'rows of reminder are never changed'); END;
CREATE TRIGGER no_DELETE_of_reminder BEFORE DELETE ON reminder BEGIN SELECT RAISE(ABORT, 'rows of reminder are never changed'); END;
CREATE TRIGGER no_UPDATE_of_reminder_done BEFORE UPDATE ON reminder_done BEGIN SELECT RAISE(ABORT, 'rows of reminder_done are never changed'); END;
CREATE TRIGGER no_DELETE_of_reminder_done BEFORE DELETE ON reminder_done BEGIN SELECT RAISE(ABORT, 'rows of reminder_done are never changed'); END;
CREATE TRIGGER no_UPDATE_of_setting BEFORE UPDATE ON setting BEGIN SELECT RAISE(ABORT, 'rows of setting are never changed'); END;
CREATE TRIGGER no_DELETE_of_setting BEFORE DELETE ON setting BEGIN SELECT RAISE(ABORT, 'rows of setting are never changed'); END;
CREATE INDEX open_check_by_harp ON open_check (harp_no);
CREATE INDEX action_by_time ON action (recorded_utc_ms);
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
INSERT INTO "check_string_steps" VALUES(3,10,-2250000,70000,250,1500000,80000,31,-750000,90000);
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
CREATE TRIGGER no_UPDATE_of_check_string_steps BEFORE UPDATE ON check_string_steps BEGIN SELECT RAISE(ABORT, 'rows of check_string_steps are never changed'); END;
CREATE TRIGGER no_DELETE_of_check_string_steps BEFORE DELETE ON check_string_steps BEGIN SELECT RAISE(ABORT, 'rows of check_string_steps are never changed'); END;
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
COMMIT;
