"""Step 1: jobs, their entries, and what refuses to change an entry, for both databases.

The id is the identity within its job: tablets of one job are not trusted by another, so
nobody can take the place of another job's entry by using its id.
"""

from models.book.views import Dialect

_NOTES = "CREATE TABLE meta (name TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL)"
# Looked for by name in every exchange; all other kinds are read in the order of entries.
_RARE = "'job', 'photo', 'tablet_added', 'tablet_revoked'"
_INDEXES = (
    # Not unique: a restored tablet uses numbers again, and both entries are to be kept.
    "CREATE INDEX entry_stream_seq ON entry (job_no, stream, seq)",
    "CREATE INDEX entry_lc_id ON entry (job_no, lc, id)",
    f"CREATE INDEX entry_rare_kind ON entry (job_no, kind) WHERE kind IN ({_RARE})",
    "CREATE INDEX entry_striking ON entry (job_no, id) WHERE strikes <> '[]'",
)

_SQLITE = (
    """CREATE TABLE office_job (
        no INTEGER NOT NULL PRIMARY KEY,
        key TEXT NOT NULL UNIQUE,
        founder TEXT NOT NULL,
        entries INTEGER NOT NULL
    )""",
    # Rows lie in the order they came in, with the key beside them: many tablets' ids lie mixed,
    # and whole rows in that order would be written to disk again and again.
    """CREATE TABLE entry (
        job_no INTEGER NOT NULL REFERENCES office_job (no),
        id TEXT NOT NULL,
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
        hash BLOB NOT NULL CHECK (length(hash) = 32),
        PRIMARY KEY (job_no, id)
    )""",
    *_INDEXES,
    """CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
        BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END""",
    """CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
        BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END""",
    # OR REPLACE deletes without firing delete triggers, so an id that is taken is settled
    # before the insert: the same bytes again are no error and no change, others are refused.
    # So is the number of a row that is there; where none is given, SQLite shows -1 for it.
    """CREATE TRIGGER entry_once BEFORE INSERT ON entry
        WHEN EXISTS (SELECT 1 FROM entry WHERE job_no = NEW.job_no AND id = NEW.id)
            OR EXISTS (SELECT 1 FROM entry WHERE rowid = NEW.rowid)
        BEGIN
            SELECT CASE WHEN EXISTS (
                SELECT 1 FROM entry
                WHERE job_no = NEW.job_no AND id = NEW.id AND raw = NEW.raw AND hash = NEW.hash
            ) THEN RAISE(IGNORE) ELSE RAISE(ABORT, 'entries are never replaced') END;
        END""",
    _NOTES,
)

_POSTGRESQL = (
    """CREATE TABLE office_job (
        no INTEGER NOT NULL GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
        key TEXT COLLATE "C" NOT NULL UNIQUE,
        founder TEXT COLLATE "C" NOT NULL,
        entries BIGINT NOT NULL
    )""",
    # Collated by bytes: the order of entries is the same as on every tablet.
    """CREATE TABLE entry (
        job_no INTEGER NOT NULL,
        id TEXT COLLATE "C" NOT NULL,
        stream TEXT COLLATE "C" NOT NULL,
        seq BIGINT NOT NULL CHECK (seq >= 1),
        lc BIGINT NOT NULL CHECK (lc >= 1),
        kind TEXT COLLATE "C" NOT NULL,
        v BIGINT NOT NULL,
        at_ms BIGINT NOT NULL,
        offset_min INTEGER NOT NULL,
        zone TEXT COLLATE "C" NOT NULL,
        author TEXT COLLATE "C" NOT NULL,
        job TEXT COLLATE "C" NOT NULL,
        day TEXT COLLATE "C" NOT NULL,
        strikes TEXT COLLATE "C" NOT NULL,
        reason TEXT COLLATE "C" NOT NULL,
        raw BYTEA NOT NULL,
        hash BYTEA NOT NULL CHECK (length(hash) = 32),
        PRIMARY KEY (job_no, id)
    )""",
    *_INDEXES,
    """CREATE FUNCTION entry_stands() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN RAISE EXCEPTION 'entries are never changed or deleted'; END $$""",
    """CREATE TRIGGER entry_no_change BEFORE UPDATE OR DELETE ON entry
        FOR EACH ROW EXECUTE FUNCTION entry_stands()""",
    """CREATE TRIGGER entry_no_truncate BEFORE TRUNCATE ON entry
        FOR EACH STATEMENT EXECUTE FUNCTION entry_stands()""",
    _NOTES,
)

STATEMENTS: dict[Dialect, tuple[str, ...]] = {
    Dialect.SQLITE: _SQLITE,
    Dialect.POSTGRESQL: _POSTGRESQL,
}
