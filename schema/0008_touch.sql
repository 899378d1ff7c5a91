-- What was found: touch tests, the moisture of the wood, how it came out; and photos. A finding is a
-- row of log_entry of the kind 'step', with the step 'touch', 'moisture' or 'outcome', and one row
-- here. Rows are facts: they are added and never changed or erased.

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

-- A finding belongs to an entry of its own step.
CREATE TRIGGER log_touch_is_of_its_step BEFORE INSERT ON log_touch
WHEN NOT EXISTS (SELECT 1 FROM log_entry WHERE id = NEW.entry_id AND kind = 'step' AND step = 'touch')
BEGIN SELECT RAISE(ABORT, 'a touch test belongs to an entry of the step touch'); END;
CREATE TRIGGER log_moisture_is_of_its_step BEFORE INSERT ON log_moisture
WHEN NOT EXISTS (SELECT 1 FROM log_entry WHERE id = NEW.entry_id AND kind = 'step' AND step = 'moisture')
BEGIN SELECT RAISE(ABORT, 'a moisture of wood belongs to an entry of the step moisture'); END;
CREATE TRIGGER log_outcome_is_of_its_step BEFORE INSERT ON log_outcome
WHEN NOT EXISTS (SELECT 1 FROM log_entry WHERE id = NEW.entry_id AND kind = 'step' AND step = 'outcome')
BEGIN SELECT RAISE(ABORT, 'an outcome belongs to an entry of the step outcome'); END;

-- Nothing is erased or rewritten, by this program or by hand.
CREATE TRIGGER log_touch_stays BEFORE DELETE ON log_touch
BEGIN SELECT RAISE(ABORT, 'a touch test in the log is never erased: strike it out'); END;
CREATE TRIGGER log_touch_is_fixed BEFORE UPDATE ON log_touch
BEGIN SELECT RAISE(ABORT, 'a touch test in the log is never changed: strike it out'); END;
CREATE TRIGGER log_moisture_stays BEFORE DELETE ON log_moisture
BEGIN SELECT RAISE(ABORT, 'a moisture in the log is never erased: strike it out'); END;
CREATE TRIGGER log_moisture_is_fixed BEFORE UPDATE ON log_moisture
BEGIN SELECT RAISE(ABORT, 'a moisture in the log is never changed: strike it out'); END;
CREATE TRIGGER log_outcome_stays BEFORE DELETE ON log_outcome
BEGIN SELECT RAISE(ABORT, 'an outcome in the log is never erased: strike it out'); END;
CREATE TRIGGER log_outcome_is_fixed BEFORE UPDATE ON log_outcome
BEGIN SELECT RAISE(ABORT, 'an outcome in the log is never changed: strike it out'); END;
CREATE TRIGGER log_photo_stays BEFORE DELETE ON log_photo
BEGIN SELECT RAISE(ABORT, 'a photo in the log is never taken off'); END;
CREATE TRIGGER log_photo_is_fixed BEFORE UPDATE ON log_photo
BEGIN SELECT RAISE(ABORT, 'a photo in the log is never changed'); END;
