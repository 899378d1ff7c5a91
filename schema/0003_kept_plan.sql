-- The last plan of each piece, so that the next one can say what moved. A plan is no fact: the next
-- one takes its place.

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
    CHECK (starts GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  PRIMARY KEY (piece_id, position)
) STRICT;
