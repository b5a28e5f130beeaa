-- Who may come in while the guild is shared. The share_ tables belong to this machine and not to the guild: neither an export
-- nor a copy that is put back touches them. Tokens of devices are kept as hashes, so that a copy of the database opens no door.
CREATE TABLE share_setting (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  password_hash TEXT NOT NULL DEFAULT '',
  https INTEGER NOT NULL DEFAULT 0 CHECK (https IN (0, 1))
) STRICT;

-- A class's join code: typed, or followed as a link by scanning.
CREATE TABLE share_join (
  class_id INTEGER PRIMARY KEY REFERENCES class (id),
  code TEXT NOT NULL UNIQUE,
  link TEXT NOT NULL UNIQUE,
  expires_at TEXT NOT NULL
) STRICT;

CREATE TABLE share_device (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  token_hash TEXT NOT NULL UNIQUE,
  role TEXT NOT NULL CHECK (role IN ('teacher', 'helper')),
  class_id INTEGER REFERENCES class (id),
  name TEXT NOT NULL DEFAULT '',
  signed_in_at TEXT NOT NULL,
  seen_at TEXT NOT NULL,
  ends_at TEXT NOT NULL,
  CHECK ((role = 'helper') = (class_id IS NOT NULL))
) STRICT;

CREATE TABLE share_event (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  happened_at TEXT NOT NULL,
  what TEXT NOT NULL,
  address TEXT NOT NULL,
  times INTEGER NOT NULL DEFAULT 1
) STRICT;

-- The link of a kit's own page, printed on its handout. A kit without a row has none yet; where it was withdrawn the row stays, without a link.
CREATE TABLE kit_link (
  kit_id INTEGER PRIMARY KEY REFERENCES kit (id),
  link TEXT UNIQUE,
  CHECK (link IS NULL OR length(link) >= 22)
) STRICT;
