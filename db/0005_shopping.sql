-- What was put into the basket for a class. amount is what the list asked for then: a tick does not stand for more than that.
CREATE TABLE shopping_tick (
  class_id INTEGER NOT NULL REFERENCES class (id),
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  amount TEXT NOT NULL,
  ticked_at TEXT NOT NULL,
  PRIMARY KEY (class_id, fabric_id)
) STRICT, WITHOUT ROWID;

-- Cloth on the shelf that a class's plan counts on. While the class is open, no other class counts on it.
CREATE TABLE shelf_claim (
  class_id INTEGER NOT NULL REFERENCES class (id),
  shelf_piece_id INTEGER NOT NULL REFERENCES shelf_piece (id),
  count INTEGER NOT NULL CHECK (count > 0),
  PRIMARY KEY (class_id, shelf_piece_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX shelf_claim_piece ON shelf_claim (shelf_piece_id);
