"""Pages of level notes typed up as a table, read and reduced."""

from models.level_notes.allowance_words import read_allowance
from models.level_notes.book import ClosingReport, LevelBook, reduce_notes
from models.level_notes.problems import NoteProblem
from models.level_notes.reader import LevelNotes, read_notes

__all__ = [
    "ClosingReport",
    "LevelBook",
    "LevelNotes",
    "NoteProblem",
    "read_allowance",
    "read_notes",
    "reduce_notes",
]
