-- A mark that adds nothing (somebody marked the same line already, or there is nothing left to undo) still has to be known
-- when it is sent again: mark_id is the mark that it counts as, or null where it counts for nothing.
CREATE TABLE kit_mark_same (
  id TEXT PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  mark_id TEXT REFERENCES kit_mark (id)
) STRICT, WITHOUT ROWID;

CREATE INDEX kit_mark_line ON kit_mark (kit_id, line, sequence);
