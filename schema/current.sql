-- The schema of a fresh store, all migrations run. A test compares it; do not edit by hand.
PRAGMA application_id = 1129796180;
PRAGMA user_version = 10;

CREATE TRIGGER log_entry_is_fixed BEFORE UPDATE ON log_entry
BEGIN SELECT RAISE(ABORT, 'a log entry is never changed: strike it out and log it again'); END;

CREATE TRIGGER log_entry_stays BEFORE DELETE ON log_entry
BEGIN SELECT RAISE(ABORT, 'a log entry is never erased: strike it out'); END;

CREATE TRIGGER log_moisture_is_fixed BEFORE UPDATE ON log_moisture
BEGIN SELECT RAISE(ABORT, 'a moisture in the log is never changed: strike it out'); END;

CREATE TRIGGER log_moisture_is_of_its_step BEFORE INSERT ON log_moisture
WHEN NOT EXISTS (SELECT 1 FROM log_entry WHERE id = NEW.entry_id AND kind = 'step' AND step = 'moisture')
BEGIN SELECT RAISE(ABORT, 'a moisture of wood belongs to an entry of the step moisture'); END;

CREATE TRIGGER log_moisture_stays BEFORE DELETE ON log_moisture
BEGIN SELECT RAISE(ABORT, 'a moisture in the log is never erased: strike it out'); END;

CREATE TRIGGER log_outcome_is_fixed BEFORE UPDATE ON log_outcome
BEGIN SELECT RAISE(ABORT, 'an outcome in the log is never changed: strike it out'); END;

CREATE TRIGGER log_outcome_is_of_its_step BEFORE INSERT ON log_outcome
WHEN NOT EXISTS (SELECT 1 FROM log_entry WHERE id = NEW.entry_id AND kind = 'step' AND step = 'outcome')
BEGIN SELECT RAISE(ABORT, 'an outcome belongs to an entry of the step outcome'); END;

CREATE TRIGGER log_outcome_stays BEFORE DELETE ON log_outcome
BEGIN SELECT RAISE(ABORT, 'an outcome in the log is never erased: strike it out'); END;

CREATE TRIGGER log_photo_is_fixed BEFORE UPDATE ON log_photo
BEGIN SELECT RAISE(ABORT, 'a photo in the log is never changed'); END;

CREATE TRIGGER log_photo_stays BEFORE DELETE ON log_photo
BEGIN SELECT RAISE(ABORT, 'a photo in the log is never taken off'); END;

CREATE TRIGGER log_strike_is_fixed BEFORE UPDATE ON log_strike
BEGIN SELECT RAISE(ABORT, 'what was struck out stays struck out: log it again'); END;

CREATE TRIGGER log_strike_stays BEFORE DELETE ON log_strike
BEGIN SELECT RAISE(ABORT, 'what was struck out stays struck out: log it again'); END;

CREATE TRIGGER log_touch_is_fixed BEFORE UPDATE ON log_touch
BEGIN SELECT RAISE(ABORT, 'a touch test in the log is never changed: strike it out'); END;

CREATE TRIGGER log_touch_is_of_its_step BEFORE INSERT ON log_touch
WHEN NOT EXISTS (SELECT 1 FROM log_entry WHERE id = NEW.entry_id AND kind = 'step' AND step = 'touch')
BEGIN SELECT RAISE(ABORT, 'a touch test belongs to an entry of the step touch'); END;

CREATE TRIGGER log_touch_stays BEFORE DELETE ON log_touch
BEGIN SELECT RAISE(ABORT, 'a touch test in the log is never erased: strike it out'); END;

CREATE TRIGGER log_verdict_is_fixed BEFORE UPDATE ON log_verdict
BEGIN SELECT RAISE(ABORT, 'a verdict in the log is never changed'); END;

CREATE TRIGGER log_verdict_stays BEFORE DELETE ON log_verdict
BEGIN SELECT RAISE(ABORT, 'a verdict in the log is never erased'); END;

CREATE TRIGGER product_revision_is_fixed BEFORE UPDATE ON product_revision
BEGIN SELECT RAISE(ABORT, 'the recipe of a logged coat is never changed'); END;

CREATE TRIGGER product_revision_stays BEFORE DELETE ON product_revision
BEGIN SELECT RAISE(ABORT, 'the recipe of a logged coat is never erased'); END;

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

CREATE TABLE can (
  -- A can that was opened.
  id INTEGER PRIMARY KEY,     -- number of the can, as the program shows it
  product TEXT NOT NULL       -- recipe name
    CHECK (product <> ''),
  opened_at TEXT NOT NULL     -- UTC; when it was opened, as the maker said
    CHECK (opened_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  made_at TEXT                -- UTC; when it was made, as the can says
    CHECK (made_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  batch TEXT                  -- as the can says
    CHECK (batch <> ''),
  note TEXT
    CHECK (note <> ''),
  emptied_at TEXT             -- UTC; none: it is in use
    CHECK (emptied_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;

CREATE TABLE kept_plan (
  -- The plan of a piece as it was made last.
  piece_id INTEGER PRIMARY KEY  -- of which piece
    REFERENCES piece (id),
  made_at TEXT NOT NULL         -- UTC
    CHECK (made_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  finish TEXT                   -- UTC; end of its last step; none: not every step had its place
    CHECK (finish GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;

CREATE TABLE kept_step (
  -- A step of that plan that was still to be done.
  piece_id INTEGER NOT NULL     -- of which piece's plan
    REFERENCES kept_plan (piece_id) ON DELETE CASCADE,
  position INTEGER NOT NULL     -- in the plan, from 1
    CHECK (position >= 1),
  kind TEXT NOT NULL            -- as a plan writes it: apply, sand, flip ...
    CHECK (kind <> ''),
  face TEXT                     -- none: the piece's one face
    CHECK (face IN ('front', 'back', 'both')),
  product TEXT                  -- recipe name, of a coat and of abrading
    CHECK (product <> ''),
  product_title TEXT            -- as pages name it
    CHECK (product_title <> ''),
  coat INTEGER NOT NULL         -- number of the coat in the schedule; 0: none
    CHECK (coat >= 0),
  grit TEXT                     -- as P150
    CHECK (grit <> ''),
  starts TEXT NOT NULL          -- UTC
    CHECK (starts GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'), revision TEXT  -- of the product's recipe, of a coat; none: not kept
  CHECK (revision NOT GLOB '*[^0-9a-f]*' AND length(revision) = 16), part TEXT  -- of the piece; none: the whole piece, or not kept
  CHECK (part <> ''),
  PRIMARY KEY (piece_id, position)
) STRICT;

CREATE TABLE log_entry (
  -- Something that was done to a piece, or left out.
  id INTEGER PRIMARY KEY,     -- number of the entry, as the program shows it
  piece_id INTEGER NOT NULL   -- to which piece
    REFERENCES piece (id),
  kind TEXT NOT NULL          -- a coat; another step that was done; a step that was left out
    CHECK (kind IN ('coat', 'step', 'skip')),
  step TEXT NOT NULL          -- kind of step as a plan writes it: apply, sand, flip ...
    CHECK (step <> ''),
  grit TEXT                   -- of sanding and abrading, as P150
    CHECK (grit <> ''),
  part TEXT                   -- none: the whole piece
    CHECK (part <> ''),
  face TEXT                   -- none: the piece's one face, or all that the step is for
    CHECK (face IN ('front', 'back', 'both')),
  product TEXT                -- recipe name
    CHECK (product <> ''),
  revision TEXT,              -- of the product's recipe, for a coat
  at TEXT NOT NULL            -- UTC; when it was done, as the maker said
    CHECK (at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  amount_l REAL               -- litres used
    CHECK (amount_l > 0),
  maker TEXT                  -- who did it
    CHECK (maker <> ''),
  batch TEXT                  -- of the can or the mix
    CHECK (batch <> ''),
  note TEXT
    CHECK (note <> ''),
  why TEXT                    -- why it was left out
    CHECK (why <> ''),
  abraded INTEGER NOT NULL    -- 1: the maker said that the face was abraded before the coat
    CHECK (abraded IN (0, 1)),
  temp_c REAL                 -- the shop's air at that time, as it was known when this was logged
    CHECK (temp_c BETWEEN -90 AND 90),
  rh_fraction REAL            -- relative humidity over liquid water
    CHECK (rh_fraction BETWEEN 0 AND 1),
  air_from TEXT               -- what the air rested on
    CHECK (air_from IN ('reading', 'logger', 'forecast', 'outdoors', 'usual day')),
  logged_at TEXT NOT NULL     -- UTC; when the entry was made
    CHECK (logged_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  FOREIGN KEY (product, revision) REFERENCES product_revision (product, revision),
  CHECK ((kind = 'coat') = (revision IS NOT NULL)),
  CHECK ((kind = 'skip') = (why IS NOT NULL)),
  CHECK (kind <> 'coat' OR (step = 'apply' AND product IS NOT NULL AND temp_c IS NOT NULL)),
  CHECK ((temp_c IS NULL) = (rh_fraction IS NULL) AND (temp_c IS NULL) = (air_from IS NULL))
) STRICT;

CREATE TABLE log_moisture (
  -- The wood's moisture as it was measured.
  entry_id INTEGER PRIMARY KEY  -- which entry; its step is 'moisture'
    REFERENCES log_entry (id),
  moisture_fraction REAL NOT NULL  -- mass of water over dry mass; no wood in a shop is near 0
    CHECK (moisture_fraction BETWEEN 0.01 AND 1)
) STRICT;

CREATE TABLE log_outcome (
  -- How a coat or the whole finish came out.
  entry_id INTEGER PRIMARY KEY  -- which entry; its step is 'outcome'
    REFERENCES log_entry (id),
  defect TEXT NOT NULL          -- a word of the program's list: 'blush', 'runs'; 'good' for none
    CHECK (defect <> '')
) STRICT;

CREATE TABLE log_photo (
  -- The photo that belongs to an entry. The file itself is the maker's to keep.
  entry_id INTEGER PRIMARY KEY  -- which entry, of any kind
    REFERENCES log_entry (id),
  file_name TEXT NOT NULL       -- as it was typed; nothing is said of where it lies
    CHECK (file_name <> '')
) STRICT;

CREATE TABLE log_strike (
  -- An entry that was struck out: it stays, and counts no longer.
  entry_id INTEGER PRIMARY KEY  -- which entry
    REFERENCES log_entry (id),
  why TEXT NOT NULL             -- the reason
    CHECK (why <> ''),
  struck_at TEXT NOT NULL       -- UTC
    CHECK (struck_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;

CREATE TABLE log_touch (
  -- What a touch test found of a coat's drying.
  entry_id INTEGER PRIMARY KEY  -- which entry; its step is 'touch'
    REFERENCES log_entry (id),
  words TEXT NOT NULL           -- as they were typed: 'tacky', 'sands to powder'
    CHECK (words <> ''),
  stage TEXT NOT NULL           -- the drying stage that they tell of
    CHECK (stage IN ('set-to-touch', 'dust-free', 'tack-free', 'dry-hard', 'dry-through', 'sandable',
                     'recoat', 'handle', 'print-free', 'light-use', 'full-cure')),
  reached INTEGER NOT NULL      -- 1: it was reached; 0: not yet
    CHECK (reached IN (0, 1))
) STRICT;

CREATE TABLE log_verdict (
  -- One finding on a coat, as it was given when the coat was logged.
  entry_id INTEGER NOT NULL   -- which coat
    REFERENCES log_entry (id),
  rank INTEGER NOT NULL       -- from 1, worst first
    CHECK (rank >= 1),
  kind TEXT NOT NULL          -- "not judged" where nothing is known of the pair
    CHECK (kind IN ('in window', 'early', 'late', 'not abraded', 'outside limits', 'never', 'not judged')),
  by_s INTEGER NOT NULL       -- how early or late, in seconds; 0 for the others
    CHECK (by_s >= 0),
  moment TEXT                 -- UTC; when the window opens or closed
    CHECK (moment GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  chance REAL                 -- that the coat was inside its window; none: not judged
    CHECK (chance BETWEEN 0 AND 1),
  text TEXT NOT NULL,         -- what was found, with its figures
  may_happen TEXT NOT NULL,   -- what may come of it
  to_do TEXT NOT NULL,        -- wait, watch for, test where, or do first
  source TEXT NOT NULL,       -- key of the figure's source
  PRIMARY KEY (entry_id, rank)
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
    CHECK (retired_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'), surface TEXT NOT NULL  -- how the wood was left: sawn, planed, scraped,
  DEFAULT 'planed' CHECK (surface <> ''), over TEXT  -- recipe name of a finish that lies on it; none: bare wood
  CHECK (over <> ''),
  CHECK (earliest IS NULL OR due IS NULL OR earliest < due)
) STRICT;

CREATE TABLE piece_unit (
  -- What of a piece is finished as one thing; a piece without any is finished as a whole.
  piece_id INTEGER NOT NULL   -- of which piece
    REFERENCES piece (id),
  position INTEGER NOT NULL   -- in the piece, from 0
    CHECK (position >= 0),
  name TEXT NOT NULL          -- as the piece's part list calls it: "doors", "door 1", "body"
    CHECK (name <> ''),
  area_m2 REAL NOT NULL       -- of one face
    CHECK (area_m2 > 0 AND area_m2 <= 1000),
  faces TEXT NOT NULL         -- one; two, coated in turn; points: both in one session
    CHECK (faces IN ('one', 'two', 'points')),
  rack_places INTEGER NOT NULL  -- taken while it dries
    CHECK (rack_places >= 0),
  schedule TEXT               -- recipe name of its own finishing schedule; none: the piece's
    CHECK (schedule <> ''),
  parts TEXT NOT NULL         -- its parts in words: "2 sides, 4 shelves"
    CHECK (parts <> ''),
  PRIMARY KEY (piece_id, position),
  UNIQUE (piece_id, name)
) STRICT;

CREATE TABLE piece_work (
  -- Work on a piece that is no finishing.
  piece_id INTEGER NOT NULL   -- on which piece
    REFERENCES piece (id),
  position INTEGER NOT NULL   -- in the order in which it is done, from 0
    CHECK (position >= 0),
  kind TEXT NOT NULL          -- as a plan writes it: glue, dry_fit, assemble ...
    CHECK (kind <> ''),
  name TEXT NOT NULL          -- as calendars print it
    CHECK (name <> ''),
  before_finish INTEGER NOT NULL  -- 1: before its parts are finished; 0: after their last coat
    CHECK (before_finish IN (0, 1)),
  minutes REAL NOT NULL       -- of attended work
    CHECK (minutes > 0),
  people INTEGER NOT NULL     -- that it needs
    CHECK (people >= 1),
  at_bench INTEGER NOT NULL   -- 1: it takes a bench
    CHECK (at_bench IN (0, 1)),
  glue TEXT                   -- recipe name of the glue, of gluing
    CHECK (glue <> ''),
  needs TEXT                  -- stage that the films must have reached, of work after finishing
    CHECK (needs <> ''),
  PRIMARY KEY (piece_id, position),
  CHECK ((kind = 'glue') = (glue IS NOT NULL)),
  CHECK ((before_finish = 1) = (needs IS NULL))
) STRICT;

CREATE TABLE piece_work_unit (
  -- What of the piece a work is on.
  piece_id INTEGER NOT NULL,
  work INTEGER NOT NULL,      -- its position
  unit INTEGER NOT NULL,      -- the unit's position
  PRIMARY KEY (piece_id, work, unit),
  FOREIGN KEY (piece_id, unit) REFERENCES piece_unit (piece_id, position),
  FOREIGN KEY (piece_id, work) REFERENCES piece_work (piece_id, position)
) STRICT;

CREATE TABLE product_revision (
  -- The text of a product's recipe as it was when a coat of it was logged, kept once.
  product TEXT NOT NULL       -- recipe name
    CHECK (product <> ''),
  revision TEXT NOT NULL      -- hash of the text: 64-bit FNV-1a, 16 hexadecimal digits
    CHECK (revision NOT GLOB '*[^0-9a-f]*' AND length(revision) = 16),
  text TEXT NOT NULL          -- the recipe file
    CHECK (text <> ''),
  PRIMARY KEY (product, revision)
) STRICT;

CREATE TABLE shop_day (
  -- A day that is not as usual: the shop is closed, or has hours of its own.
  day TEXT PRIMARY KEY    -- of the shop's calendar
    CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  hours TEXT              -- by the shop's clock, as 09:00-13:00, 14:00-16:00; none: closed
    CHECK (hours <> ''),
  people INTEGER          -- how many are there; none: as many as on any such weekday
    CHECK (people >= 1),
  CHECK (hours IS NOT NULL OR people IS NULL)
) STRICT;

CREATE TABLE "shop_setting" (
  -- What the shop says about itself; a setting that is not here has its default.
  key TEXT PRIMARY KEY    -- which setting
    CHECK (key IN ('usual_day', 'hours', 'time_zone', 'units', 'people', 'spray_places',
                   'rack_places', 'benches', 'finishing_room', 'learned_recoat',
                   'room', 'fan', 'fan_rated', 'mixing', 'ignition', 'emergency', 'cabinet')),
  value TEXT NOT NULL     -- as it was typed
    CHECK (value <> '')
) STRICT;

CREATE INDEX log_entry_piece ON log_entry (piece_id, at);

CREATE UNIQUE INDEX piece_name ON piece (name) WHERE retired_at IS NULL;
