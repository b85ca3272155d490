"""Schema steps of a book, numbered; a released step is never edited."""

from models.book.steps import step_1_entries

APPLICATION_ID = 0x44524149  # tells a book from any other SQLite file

STEPS: tuple[tuple[str, ...], ...] = (step_1_entries.STATEMENTS,)
