"""Pages of level notes typed up as a table, read and reduced."""

from models.level_notes.allowance_words import read_allowance
from models.level_notes.book import ClosingReport, LevelBook, reduce_notes
from models.level_notes.peg_page import PEG_COLUMNS, PegPage, is_peg_page, read_peg_page
from models.level_notes.problems import NoteProblem
from models.level_notes.reader import LevelNotes, read_notes

__all__ = [
    "PEG_COLUMNS",
    "ClosingReport",
    "LevelBook",
    "LevelNotes",
    "NoteProblem",
    "PegPage",
    "is_peg_page",
    "read_allowance",
    "read_notes",
    "read_peg_page",
    "reduce_notes",
]
