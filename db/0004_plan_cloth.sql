-- Which pieces on the shelf a plan's sheets are, in order: once a class is printed or bought for, it keeps to them.
ALTER TABLE plan ADD COLUMN shelf_piece_ids TEXT NOT NULL DEFAULT '[]';
