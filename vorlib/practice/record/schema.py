"""The tables of a learner's record, version by version: only ever extended by a further tuple."""

__all__ = ["APPLICATION_ID", "STEPS", "VERSION_1", "VERSION_2", "VERSION_3", "VERSION_4"]

APPLICATION_ID = 0x564F5252  # "VORR" in the file's header tells a record from other databases

VERSION_1 = (
    "CREATE TABLE learner (name TEXT NOT NULL)",
    """
    CREATE TABLE answer (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        key TEXT NOT NULL UNIQUE,
        answered_at TEXT NOT NULL,
        kind TEXT NOT NULL,
        seed INTEGER NOT NULL,
        verdict TEXT NOT NULL,
        misconception TEXT NOT NULL,
        hints INTEGER NOT NULL,
        taken_s REAL NOT NULL
    )
    """,
    "CREATE TRIGGER no_change BEFORE UPDATE ON answer "
    "BEGIN SELECT RAISE(ABORT, 'answers are only ever added'); END",
    "CREATE TRIGGER no_loss BEFORE DELETE ON answer "
    "BEGIN SELECT RAISE(ABORT, 'answers are only ever added'); END",
)
VERSION_2 = (
    "ALTER TABLE answer ADD COLUMN foreseen TEXT NOT NULL DEFAULT ''",
    "CREATE INDEX by_time ON answer (answered_at)",
    "CREATE INDEX by_kind ON answer (kind, verdict, answered_at, hints)",
)
VERSION_3 = (
    """
    CREATE TABLE sitting (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        key TEXT NOT NULL UNIQUE,
        seed INTEGER NOT NULL,
        begun_at TEXT NOT NULL,
        place INTEGER NOT NULL DEFAULT 1,
        beat_s REAL NOT NULL,
        paused INTEGER NOT NULL DEFAULT 0,
        pauses INTEGER NOT NULL DEFAULT 0,
        state TEXT NOT NULL DEFAULT 'open',
        report TEXT
    )
    """,
    """
    CREATE TABLE sitting_answer (
        sitting INTEGER NOT NULL REFERENCES sitting (number),
        number INTEGER NOT NULL,
        fingerprint TEXT NOT NULL,
        used_s REAL NOT NULL DEFAULT 0,
        given TEXT NOT NULL DEFAULT '',
        given_at TEXT,
        late INTEGER NOT NULL DEFAULT 0,
        PRIMARY KEY (sitting, number)
    )
    """,
    "CREATE UNIQUE INDEX one_open ON sitting (state) WHERE state = 'open'",
    "CREATE TRIGGER sitting_closed BEFORE UPDATE ON sitting WHEN OLD.state <> 'open' "
    "BEGIN SELECT RAISE(ABORT, 'this check flight is closed'); END",
    "CREATE TRIGGER answer_closed BEFORE UPDATE ON sitting_answer "
    "WHEN (SELECT state FROM sitting WHERE number = OLD.sitting) <> 'open' "
    "BEGIN SELECT RAISE(ABORT, 'this check flight is closed'); END",
    "CREATE TRIGGER sitting_kept BEFORE DELETE ON sitting "
    "BEGIN SELECT RAISE(ABORT, 'check flights are only ever added'); END",
    "CREATE TRIGGER answer_kept BEFORE DELETE ON sitting_answer "
    "BEGIN SELECT RAISE(ABORT, 'check flights are only ever added'); END",
)
"""An answer may change while its check flight is under way, and never afterwards."""

VERSION_4 = (
    """
    CREATE TABLE training (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        key TEXT NOT NULL UNIQUE,
        day TEXT NOT NULL,
        what TEXT NOT NULL,
        about TEXT NOT NULL,
        remark TEXT NOT NULL
    )
    """,
)
"""What an instructor enters: lessons taught and flights debriefed."""

STEPS = (VERSION_1, VERSION_2, VERSION_3, VERSION_4)
"""Statements that bring a file of each version up to the next."""
