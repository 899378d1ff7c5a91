-- The schema of a fresh store, all migrations run. A test compares it; do not edit by hand.
PRAGMA application_id = 1129796180;
PRAGMA user_version = 1;

CREATE TABLE air_entry (
  -- What the air was, or is expected to be, at a moment. Outdoor air is kept as it was outdoors.
  id INTEGER PRIMARY KEY,     -- number of the row
  source_id INTEGER           -- the file; none for a reading typed in
    REFERENCES air_source (id),
  at TEXT NOT NULL            -- UTC
    CHECK (at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  temp_c REAL NOT NULL        -- air temperature
    CHECK (temp_c BETWEEN -90 AND 90),
  rh_fraction REAL NOT NULL   -- relative humidity over liquid water
    CHECK (rh_fraction BETWEEN 0 AND 1),
  origin TEXT NOT NULL        -- logger and forecast are of the shop; outdoors is either, outdoors
    CHECK (origin IN ('reading', 'logger', 'forecast', 'outdoors')),
  CHECK ((origin = 'reading') = (source_id IS NULL)),
  UNIQUE (at, origin)
) STRICT;

CREATE TABLE air_source (
  -- A file of air readings that was imported.
  id INTEGER PRIMARY KEY,     -- number of the row
  file_name TEXT NOT NULL,    -- without its folder
  place TEXT NOT NULL         -- where the air was
    CHECK (place IN ('shop', 'outdoors')),
  kind TEXT NOT NULL          -- measured, or expected by somebody
    CHECK (kind IN ('logger', 'forecast')),
  imported_at TEXT NOT NULL   -- UTC
    CHECK (imported_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  rows INTEGER NOT NULL       -- readings in the file, those stored already included
    CHECK (rows >= 0)
) STRICT;

CREATE TABLE piece (
  -- A piece to be finished.
  id INTEGER PRIMARY KEY,     -- number of the row
  name TEXT NOT NULL          -- as the shop calls it; free again when the piece is retired
    CHECK (name <> ''),
  species TEXT NOT NULL       -- recipe name of the wood
    CHECK (species <> ''),
  schedule TEXT NOT NULL      -- recipe name of the finishing schedule
    CHECK (schedule <> ''),
  area_m2 REAL NOT NULL       -- of one face
    CHECK (area_m2 > 0 AND area_m2 <= 1000),
  faces TEXT NOT NULL         -- one; two, coated in turn; points: both in one session
    CHECK (faces IN ('one', 'two', 'points')),
  due TEXT                    -- UTC; none: no date
    CHECK (due GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  earliest TEXT               -- UTC; none: as soon as there is time
    CHECK (earliest GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  weight REAL NOT NULL        -- how much being late with it counts against other pieces
    DEFAULT 1 CHECK (weight > 0),
  created_at TEXT NOT NULL    -- UTC
    CHECK (created_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  retired_at TEXT             -- UTC; none: still to be finished or kept
    CHECK (retired_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  CHECK (earliest IS NULL OR due IS NULL OR earliest < due)
) STRICT;

CREATE TABLE shop_setting (
  -- What the shop says about itself; a setting that is not here has its default.
  key TEXT PRIMARY KEY    -- which setting
    CHECK (key IN ('usual_day', 'hours', 'time_zone', 'units')),
  value TEXT NOT NULL     -- as it was typed
    CHECK (value <> '')
) STRICT;

CREATE UNIQUE INDEX piece_name ON piece (name) WHERE retired_at IS NULL;
