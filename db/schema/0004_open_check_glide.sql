-- What a step takes of a pluck's glide: without it a check that was stopped gave other steps than one that was not.

ALTER TABLE open_check_reading ADD COLUMN
  glide_uncertainty_cents REAL NOT NULL DEFAULT 0 CHECK (glide_uncertainty_cents >= 0);
ALTER TABLE open_check_partial ADD COLUMN
  glide_cents REAL NOT NULL DEFAULT 0;
