-- How a fabric goes into the bags of a class, where that is not as cut pieces. way: the teacher cuts it from cloth by the
-- length, or it is bought precut. One version counts for all choices and precuts of a class.
ALTER TABLE class ADD COLUMN formats_version INTEGER NOT NULL DEFAULT 1;

CREATE TABLE class_format (
  class_id INTEGER NOT NULL REFERENCES class (id),
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  format TEXT NOT NULL CHECK (format NOT IN ('', 'cut-pieces')),
  way TEXT NOT NULL CHECK (way IN ('cut', 'bought')),
  PRIMARY KEY (class_id, fabric_id)
) STRICT, WITHOUT ROWID;

-- The class's own precuts. A strip is as long as its fabric is wide: width_ticks is null.
CREATE TABLE class_precut (
  class_id INTEGER NOT NULL REFERENCES class (id),
  format TEXT NOT NULL,
  width_ticks INTEGER CHECK (width_ticks > 0),
  length_ticks INTEGER NOT NULL CHECK (length_ticks > 0),
  pack_size INTEGER NOT NULL CHECK (pack_size > 0),
  pack_price_cents INTEGER CHECK (pack_price_cents >= 0),
  pinked_margin_ticks INTEGER NOT NULL DEFAULT 0 CHECK (pinked_margin_ticks >= 0),
  PRIMARY KEY (class_id, format)
) STRICT, WITHOUT ROWID;

-- Precuts bought are counted; the length is then the length of whole width with as much cloth. 0 for cloth by the length.
ALTER TABLE purchase ADD COLUMN count INTEGER NOT NULL DEFAULT 0 CHECK (count >= 0);

-- Several left over alike, as precuts are.
ALTER TABLE leftover ADD COLUMN count INTEGER NOT NULL DEFAULT 1 CHECK (count > 0);
