-- Lengths are whole ticks (406,400 to the inch), money whole hundredths of the currency, percentages whole hundredths
-- of a percent, times ISO 8601 text in UTC. A row that people edit carries a version: an update that names another
-- version changes nothing. Rows that people delete keep a deleted_at, so that deleting can be undone.

CREATE TABLE guild (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  name TEXT NOT NULL,
  units TEXT NOT NULL CHECK (units IN ('inches', 'centimetres')),
  paper TEXT NOT NULL CHECK (paper IN ('letter', 'a4')),
  currency TEXT NOT NULL CHECK (length(currency) = 3),
  demonstration INTEGER NOT NULL DEFAULT 0 CHECK (demonstration IN (0, 1)),
  version INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE TABLE fabric (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (name <> ''),
  colour TEXT NOT NULL CHECK (colour GLOB '#[0-9a-f][0-9a-f][0-9a-f][0-9a-f][0-9a-f][0-9a-f]'),
  usable_width_ticks INTEGER NOT NULL CHECK (usable_width_ticks > 0),
  price_cents INTEGER NOT NULL CHECK (price_cents >= 0),
  price_per TEXT NOT NULL CHECK (price_per IN ('yard', 'metre')),
  increment_ticks INTEGER NOT NULL CHECK (increment_ticks > 0),
  minimum_ticks INTEGER NOT NULL CHECK (minimum_ticks >= 0),
  directional INTEGER NOT NULL DEFAULT 0 CHECK (directional IN (0, 1)),
  shrinkage_along_hundredths INTEGER NOT NULL DEFAULT 0 CHECK (shrinkage_along_hundredths BETWEEN 0 AND 5000),
  shrinkage_across_hundredths INTEGER NOT NULL DEFAULT 0 CHECK (shrinkage_across_hundredths BETWEEN 0 AND 5000),
  supplier_note TEXT NOT NULL DEFAULT '',
  created_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE TABLE block (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (name <> ''),
  json TEXT,
  typed_lines TEXT,
  created_at TEXT NOT NULL,
  updated_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  CHECK ((json IS NULL) <> (typed_lines IS NULL))
) STRICT;

-- A class keeps its own copy of the block, so that a block edited later does not change a kit already cut.
CREATE TABLE class (
  id INTEGER PRIMARY KEY,
  title TEXT NOT NULL CHECK (title <> ''),
  held_on TEXT,
  held_time TEXT NOT NULL DEFAULT '',
  place TEXT NOT NULL DEFAULT '',
  block_id INTEGER REFERENCES block (id),
  block_name TEXT NOT NULL,
  block_json TEXT,
  typed_lines TEXT,
  units TEXT NOT NULL CHECK (units IN ('inches', 'centimetres')),
  paper TEXT NOT NULL CHECK (paper IN ('letter', 'a4')),
  currency TEXT NOT NULL CHECK (length(currency) = 3),
  seam_allowance_ticks INTEGER NOT NULL CHECK (seam_allowance_ticks >= 0),
  cutting_step_ticks INTEGER NOT NULL CHECK (cutting_step_ticks > 0),
  methods_json TEXT NOT NULL,
  blocks_per_kit INTEGER NOT NULL DEFAULT 1 CHECK (blocks_per_kit > 0),
  layers INTEGER NOT NULL DEFAULT 4 CHECK (layers > 0),
  longest_strip_ticks INTEGER NOT NULL CHECK (longest_strip_ticks > 0),
  squaring_up_ticks INTEGER NOT NULL DEFAULT 0 CHECK (squaring_up_ticks >= 0),
  places INTEGER CHECK (places > 0),
  kits_only INTEGER CHECK (kits_only >= 0),
  spare_kits INTEGER NOT NULL DEFAULT 0 CHECK (spare_kits >= 0),
  sample_kits INTEGER NOT NULL DEFAULT 0 CHECK (sample_kits >= 0),
  spare_percent_hundredths INTEGER NOT NULL DEFAULT 0 CHECK (spare_percent_hundredths >= 0),
  miscut_percent_hundredths INTEGER CHECK (miscut_percent_hundredths BETWEEN 0 AND 9999),
  promise_percent_hundredths INTEGER NOT NULL DEFAULT 9500 CHECK (promise_percent_hundredths BETWEEN 1 AND 9999),
  notions_cents INTEGER NOT NULL DEFAULT 0,
  packaging_cents INTEGER NOT NULL DEFAULT 0,
  labour_cents_per_hour INTEGER NOT NULL DEFAULT 0,
  seconds_per_stroke INTEGER NOT NULL DEFAULT 20,
  packing_minutes INTEGER NOT NULL DEFAULT 5,
  fixed_costs_cents INTEGER NOT NULL DEFAULT 0,
  fee_cents INTEGER NOT NULL DEFAULT 0,
  tax_percent_hundredths INTEGER NOT NULL DEFAULT 0,
  pricing TEXT NOT NULL DEFAULT 'margin' CHECK (pricing IN ('margin', 'markup', 'by-hand')),
  margin_percent_hundredths INTEGER NOT NULL DEFAULT 3000,
  markup_percent_hundredths INTEGER NOT NULL DEFAULT 5000,
  price_by_hand_cents INTEGER NOT NULL DEFAULT 0,
  price_step_cents INTEGER NOT NULL DEFAULT 50 CHECK (price_step_cents > 0),
  tolerance_percent_hundredths INTEGER NOT NULL DEFAULT 500,
  status TEXT NOT NULL DEFAULT 'open' CHECK (status IN ('open', 'closed')),
  printed_at TEXT,
  closed_at TEXT,
  frozen_json TEXT,
  created_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1,
  CHECK ((block_json IS NULL) <> (typed_lines IS NULL))
) STRICT;

CREATE TABLE class_trace (
  id INTEGER PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  happened_at TEXT NOT NULL,
  what TEXT NOT NULL
) STRICT;

-- width and length as measured; a bolt or length keeps its whole usable width.
CREATE TABLE shelf_piece (
  id INTEGER PRIMARY KEY,
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  kind TEXT NOT NULL CHECK (kind IN ('bolt', 'length', 'remnant')),
  width_ticks INTEGER NOT NULL CHECK (width_ticks > 0),
  length_ticks INTEGER NOT NULL CHECK (length_ticks > 0),
  count INTEGER NOT NULL DEFAULT 1 CHECK (count > 0),
  reserved_class_id INTEGER REFERENCES class (id),
  note TEXT NOT NULL DEFAULT '',
  created_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX shelf_piece_fabric ON shelf_piece (fabric_id);

CREATE TABLE colourway (
  id INTEGER PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  name TEXT NOT NULL CHECK (name <> ''),
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX colourway_class ON colourway (class_id);

CREATE TABLE colourway_fabric (
  colourway_id INTEGER NOT NULL REFERENCES colourway (id),
  letter TEXT NOT NULL CHECK (letter <> ''),
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  PRIMARY KEY (colourway_id, letter)
) STRICT, WITHOUT ROWID;

CREATE TABLE student (
  id INTEGER PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  position INTEGER NOT NULL,
  name TEXT NOT NULL CHECK (name <> ''),
  contact TEXT NOT NULL DEFAULT '',
  colourway_id INTEGER REFERENCES colourway (id),
  note TEXT NOT NULL DEFAULT '',
  large_print INTEGER NOT NULL DEFAULT 0 CHECK (large_print IN (0, 1)),
  left_handed INTEGER NOT NULL DEFAULT 0 CHECK (left_handed IN (0, 1)),
  waiting INTEGER NOT NULL DEFAULT 0 CHECK (waiting IN (0, 1)),
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX student_class ON student (class_id);

-- The code never changes, and the number only until something is printed or packed: they are on the bag. A student's kit takes its colourway from the student.
CREATE TABLE kit (
  id INTEGER PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  number INTEGER NOT NULL CHECK (number > 0),
  code TEXT NOT NULL UNIQUE,
  role TEXT NOT NULL CHECK (role IN ('student', 'open', 'spare', 'sample')),
  student_id INTEGER UNIQUE REFERENCES student (id),
  colourway_id INTEGER REFERENCES colourway (id),
  deleted_at TEXT,
  UNIQUE (class_id, number),
  CHECK ((role = 'student') = (student_id IS NOT NULL))
) STRICT;

-- Marks are only ever added; an undo is a mark that names the one it undoes. The id comes from the device that made
-- the mark, so that one sent twice counts once; the sequence lets a device that was away ask for what it missed.
CREATE TABLE kit_mark (
  sequence INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  class_id INTEGER NOT NULL REFERENCES class (id),
  kit_id INTEGER NOT NULL REFERENCES kit (id),
  line TEXT NOT NULL,
  state TEXT NOT NULL,
  who TEXT NOT NULL,
  marked_at TEXT NOT NULL,
  undoes TEXT REFERENCES kit_mark (id)
) STRICT;
CREATE INDEX kit_mark_class ON kit_mark (class_id, sequence);

CREATE TABLE shortage (
  id TEXT PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  kit_id INTEGER NOT NULL REFERENCES kit (id),
  letter TEXT NOT NULL,
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  width_ticks INTEGER NOT NULL CHECK (width_ticks > 0),
  height_ticks INTEGER NOT NULL CHECK (height_ticks > 0),
  count INTEGER NOT NULL CHECK (count > 0),
  reason TEXT NOT NULL CHECK (reason IN ('missing', 'spoiled')),
  note TEXT NOT NULL DEFAULT '',
  who TEXT NOT NULL,
  reported_at TEXT NOT NULL,
  mended_at TEXT
) STRICT, WITHOUT ROWID;
CREATE INDEX shortage_class ON shortage (class_id);

CREATE TABLE purchase (
  id INTEGER PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  length_ticks INTEGER NOT NULL CHECK (length_ticks > 0),
  paid_cents INTEGER NOT NULL CHECK (paid_cents >= 0),
  note TEXT NOT NULL DEFAULT '',
  bought_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX purchase_class ON purchase (class_id);

CREATE TABLE leftover (
  id INTEGER PRIMARY KEY,
  class_id INTEGER NOT NULL REFERENCES class (id),
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  width_ticks INTEGER NOT NULL CHECK (width_ticks > 0),
  length_ticks INTEGER NOT NULL CHECK (length_ticks > 0),
  to_shelf INTEGER NOT NULL CHECK (to_shelf IN (0, 1)),
  shelf_piece_id INTEGER REFERENCES shelf_piece (id),
  note TEXT NOT NULL DEFAULT '',
  measured_at TEXT NOT NULL,
  deleted_at TEXT,
  version INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX leftover_class ON leftover (class_id);

-- One plan for each fabric of a class, stored only after it was checked. inputs_hash tells whether it still fits.
CREATE TABLE plan (
  class_id INTEGER NOT NULL REFERENCES class (id),
  fabric_id INTEGER NOT NULL REFERENCES fabric (id),
  inputs_hash TEXT NOT NULL,
  request_json TEXT NOT NULL,
  plan_json TEXT NOT NULL,
  planned_at TEXT NOT NULL,
  PRIMARY KEY (class_id, fabric_id)
) STRICT, WITHOUT ROWID;
