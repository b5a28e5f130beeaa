-- A report that was taken back stays on record, so that a phone that sends it again late does not bring it back.
ALTER TABLE shortage ADD COLUMN withdrawn_at TEXT;

-- A photographed note of what was measured, beside the leftover that it tells of. It lies in the database, so that every copy of that has it.
CREATE TABLE leftover_photo (
  leftover_id INTEGER PRIMARY KEY REFERENCES leftover (id),
  media_type TEXT NOT NULL CHECK (media_type IN ('image/jpeg', 'image/png', 'image/webp')),
  picture BLOB NOT NULL,
  added_at TEXT NOT NULL
) STRICT;
