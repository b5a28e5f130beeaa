-- How a block is usually made, kept with it: all four or none. A class starts from them and has its own.
ALTER TABLE block ADD COLUMN seam_allowance_ticks INTEGER CHECK (seam_allowance_ticks > 0);
ALTER TABLE block ADD COLUMN cutting_step_ticks INTEGER CHECK (cutting_step_ticks > 0);
ALTER TABLE block ADD COLUMN methods_json TEXT;
ALTER TABLE block ADD COLUMN blocks_per_kit INTEGER CHECK (blocks_per_kit > 0);

-- A block set into a whole piece. It follows its block, also one that was removed from the list since.
CREATE TABLE project (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (name <> ''),
  block_id INTEGER NOT NULL REFERENCES block (id),
  json TEXT NOT NULL,
  created_at TEXT NOT NULL,
  updated_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX project_block ON project (block_id);

-- A class of a project keeps its own copy of it, beside that of the block.
ALTER TABLE class ADD COLUMN project_json TEXT;

-- An editor numbers what it keeps, so that two sends that arrive in the wrong order are told from two people drawing.
ALTER TABLE block_draft ADD COLUMN kept_by TEXT NOT NULL DEFAULT '';
ALTER TABLE block_draft ADD COLUMN kept_sequence INTEGER NOT NULL DEFAULT 0;
