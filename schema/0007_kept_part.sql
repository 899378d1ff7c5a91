-- Plans of pieces that are finished in parts.

ALTER TABLE kept_step ADD COLUMN part TEXT  -- of the piece; none: the whole piece, or not kept
  CHECK (part <> '');
