-- What a shop lets its own touch tests do.

-- The settings again, with the one that is new: a CHECK cannot be changed in place.
CREATE TABLE shop_setting_with_learning (
  -- What the shop says about itself; a setting that is not here has its default.
  key TEXT PRIMARY KEY    -- which setting
    CHECK (key IN ('usual_day', 'hours', 'time_zone', 'units', 'people', 'spray_places',
                   'rack_places', 'benches', 'finishing_room', 'learned_recoat')),
  value TEXT NOT NULL     -- as it was typed
    CHECK (value <> '')
) STRICT;
INSERT INTO shop_setting_with_learning (key, value) SELECT key, value FROM shop_setting;
DROP TABLE shop_setting;
ALTER TABLE shop_setting_with_learning RENAME TO shop_setting;
