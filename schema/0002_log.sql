-- The log: what was done, with what, in which air, and what was said of it then. Its rows are
-- facts: they are added and never changed or erased; a mistake is struck out by a row of its own.

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

CREATE INDEX log_entry_piece ON log_entry (piece_id, at);

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

CREATE TABLE log_strike (
  -- An entry that was struck out: it stays, and counts no longer.
  entry_id INTEGER PRIMARY KEY  -- which entry
    REFERENCES log_entry (id),
  why TEXT NOT NULL             -- the reason
    CHECK (why <> ''),
  struck_at TEXT NOT NULL       -- UTC
    CHECK (struck_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;

-- Nothing is erased or rewritten, by this program or by hand.
CREATE TRIGGER log_entry_stays BEFORE DELETE ON log_entry
BEGIN SELECT RAISE(ABORT, 'a log entry is never erased: strike it out'); END;
CREATE TRIGGER log_entry_is_fixed BEFORE UPDATE ON log_entry
BEGIN SELECT RAISE(ABORT, 'a log entry is never changed: strike it out and log it again'); END;
CREATE TRIGGER log_verdict_stays BEFORE DELETE ON log_verdict
BEGIN SELECT RAISE(ABORT, 'a verdict in the log is never erased'); END;
CREATE TRIGGER log_verdict_is_fixed BEFORE UPDATE ON log_verdict
BEGIN SELECT RAISE(ABORT, 'a verdict in the log is never changed'); END;
CREATE TRIGGER log_strike_stays BEFORE DELETE ON log_strike
BEGIN SELECT RAISE(ABORT, 'what was struck out stays struck out: log it again'); END;
CREATE TRIGGER log_strike_is_fixed BEFORE UPDATE ON log_strike
BEGIN SELECT RAISE(ABORT, 'what was struck out stays struck out: log it again'); END;
CREATE TRIGGER product_revision_stays BEFORE DELETE ON product_revision
BEGIN SELECT RAISE(ABORT, 'the recipe of a logged coat is never erased'); END;
CREATE TRIGGER product_revision_is_fixed BEFORE UPDATE ON product_revision
BEGIN SELECT RAISE(ABORT, 'the recipe of a logged coat is never changed'); END;
