-- What a piece's finish begins on, and which recipes a plan was made by.

ALTER TABLE piece ADD COLUMN surface TEXT NOT NULL  -- how the wood was left: sawn, planed, scraped,
  DEFAULT 'planed' CHECK (surface <> '');           -- old-finish, or the grit it was sanded to

ALTER TABLE piece ADD COLUMN over TEXT  -- recipe name of a finish that lies on it; none: bare wood
  CHECK (over <> '');

ALTER TABLE kept_step ADD COLUMN revision TEXT  -- of the product's recipe, of a coat; none: not kept
  CHECK (revision NOT GLOB '*[^0-9a-f]*' AND length(revision) = 16);
