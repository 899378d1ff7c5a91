-- What a piece's finish begins on.

ALTER TABLE piece ADD COLUMN surface TEXT NOT NULL  -- how the wood was left: sawn, planed, scraped,
  DEFAULT 'planed' CHECK (surface <> '');           -- old-finish, or the grit it was sanded to

ALTER TABLE piece ADD COLUMN over TEXT  -- recipe name of a finish that lies on it; none: bare wood
  CHECK (over <> '');
