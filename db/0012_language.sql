-- BCP 47 tag of the language and spelling in which the guild's pages speak. Which there are, the program's files say.
ALTER TABLE guild ADD COLUMN language TEXT NOT NULL DEFAULT 'en-GB' CHECK (language <> '');
