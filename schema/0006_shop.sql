-- What a shop's whole work is planned with: who and what there is, days that are not usual, and
-- pieces that are finished in parts and put together.

-- The settings again, with those that are new: a CHECK cannot be changed in place.
CREATE TABLE shop_setting_with_resources (
  -- What the shop says about itself; a setting that is not here has its default.
  key TEXT PRIMARY KEY    -- which setting
    CHECK (key IN ('usual_day', 'hours', 'time_zone', 'units', 'people', 'spray_places',
                   'rack_places', 'benches', 'finishing_room')),
  value TEXT NOT NULL     -- as it was typed
    CHECK (value <> '')
) STRICT;
INSERT INTO shop_setting_with_resources (key, value) SELECT key, value FROM shop_setting;
DROP TABLE shop_setting;
ALTER TABLE shop_setting_with_resources RENAME TO shop_setting;

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
