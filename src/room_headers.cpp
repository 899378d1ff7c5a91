// Only there for its precompiled headers.
