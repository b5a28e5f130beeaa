-- A block being drawn, kept as typed and so perhaps not yet a block that can be cut. block_id is null for one that was
-- never saved; block_version is the version of the block that the draft began from.
CREATE TABLE block_draft (
  id INTEGER PRIMARY KEY,
  block_id INTEGER REFERENCES block (id),
  block_version INTEGER,
  sketch_json TEXT NOT NULL,
  created_at TEXT NOT NULL,
  updated_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  CHECK ((block_id IS NULL) = (block_version IS NULL))
) STRICT;
CREATE UNIQUE INDEX block_draft_block ON block_draft (block_id) WHERE deleted_at IS NULL;
