"""Schema steps of the office's database, in both dialects; a released step is never edited."""

from models.book.views import Dialect
from sync.office.steps import step_1_entries

APPLICATION_ID = 0x44524F46  # tells an office's file from a book and any other SQLite file

STEPS: tuple[dict[Dialect, tuple[str, ...]], ...] = (step_1_entries.STATEMENTS,)
