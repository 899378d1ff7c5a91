-- What a shop says of its finishing room: how vapour is thinned there, what could ignite it, and whom
-- to call.

-- The settings again, with those that are new: a CHECK cannot be changed in place.
CREATE TABLE shop_setting_with_room (
  -- What the shop says about itself; a setting that is not here has its default.
  key TEXT PRIMARY KEY    -- which setting
    CHECK (key IN ('usual_day', 'hours', 'time_zone', 'units', 'people', 'spray_places',
                   'rack_places', 'benches', 'finishing_room', 'learned_recoat',
                   'room', 'fan', 'fan_rated', 'mixing', 'ignition', 'emergency', 'cabinet')),
  value TEXT NOT NULL     -- as it was typed
    CHECK (value <> '')
) STRICT;
INSERT INTO shop_setting_with_room (key, value) SELECT key, value FROM shop_setting;
DROP TABLE shop_setting;
ALTER TABLE shop_setting_with_room RENAME TO shop_setting;
