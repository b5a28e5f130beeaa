-- A mark that adds nothing (somebody marked the same line already, or there is nothing left to undo) still has to be known
-- when it is sent again: mark_id is the mark that it counts as, or null where it counts for nothing.
CREATE TABLE kit_mark_same (
  id TEXT PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  mark_id TEXT REFERENCES kit_mark (id)
) STRICT, WITHOUT ROWID;

CREATE INDEX kit_mark_line ON kit_mark (kit_id, line, sequence);

-- Whether a missing piece was cut anew or taken from the spare pieces: only the first uses cloth.
ALTER TABLE shortage ADD COLUMN mended_from TEXT NOT NULL DEFAULT '' CHECK (mended_from IN ('', 'recut', 'spare'));

-- Cloth handed out uncut, beyond the plan.
CREATE TABLE given_out (
  id INTEGER PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  length_ticks INTEGER NOT NULL CHECK (length_ticks > 0),
  note TEXT NOT NULL DEFAULT '',
  given_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX given_out_class ON given_out (class_id);
