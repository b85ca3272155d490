"""Step 1: the table of entries, the triggers that refuse changes, and its indexes."""

STATEMENTS = (
    # Without a rowid there is no second key by which OR REPLACE could reach a row.
    """CREATE TABLE entry (
        id TEXT NOT NULL PRIMARY KEY,
        stream TEXT NOT NULL,
        seq INTEGER NOT NULL CHECK (seq >= 1),
        lc INTEGER NOT NULL CHECK (lc >= 1),
        kind TEXT NOT NULL,
        v INTEGER NOT NULL,
        at_ms INTEGER NOT NULL,
        offset_min INTEGER NOT NULL,
        zone TEXT NOT NULL,
        author TEXT NOT NULL,
        job TEXT NOT NULL,
        day TEXT NOT NULL,
        strikes TEXT NOT NULL,
        reason TEXT NOT NULL,
        raw BLOB NOT NULL,
        hash BLOB NOT NULL CHECK (length(hash) = 32)
    ) WITHOUT ROWID""",
    # Not unique: a restored tablet uses numbers again, and both entries are to be kept.
    "CREATE INDEX entry_stream_seq ON entry (stream, seq)",
    "CREATE INDEX entry_job_kind ON entry (job, kind)",
    "CREATE INDEX entry_lc_id ON entry (lc, id)",
    "CREATE INDEX entry_striking ON entry (id) WHERE strikes <> '[]'",
    """CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
        BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END""",
    """CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
        BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END""",
    # OR REPLACE deletes without firing delete triggers, so an id that is taken is settled
    # before the insert: the same bytes again are no error and no change, others are refused.
    """CREATE TRIGGER entry_once BEFORE INSERT ON entry
        WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)
        BEGIN
            SELECT CASE WHEN EXISTS (
                SELECT 1 FROM entry WHERE id = NEW.id AND raw = NEW.raw AND hash = NEW.hash
            ) THEN RAISE(IGNORE) ELSE RAISE(ABORT, 'entries are never replaced') END;
        END""",
    # Notes about the file itself, such as which views it holds; nothing of the record.
    "CREATE TABLE meta (name TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID",
)
