-- The cans that the shop has open: from when on each keeps as long as its product says. A can is
-- taken off when it is empty or thrown away; its row stays.

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
