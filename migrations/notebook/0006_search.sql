-- Words to search by: names, scouts and notes as the views hold them. A view
-- too: emptied and filled from the log like the others. Whether a thing is
-- removed is asked of its own view when it is found.
CREATE TABLE searchable (
    row  INTEGER NOT NULL PRIMARY KEY,
    kind TEXT    NOT NULL, -- planting | farm | field | hybrid | walk (its scout) | head (its note)
    id   BLOB    NOT NULL,
    text TEXT    NOT NULL,
    UNIQUE (kind, id)
) STRICT;

-- The words of `searchable`, without accents and case; beginnings of two and
-- three letters are kept ready, because a search begins with them.
CREATE VIRTUAL TABLE search_index USING fts5(
    text,
    content = 'searchable',
    content_rowid = 'row',
    tokenize = 'unicode61 remove_diacritics 2',
    prefix = '2 3'
);
