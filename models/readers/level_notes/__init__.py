"""Pages of level notes; every fault is reported at once, with its place."""

from models.readers.level_notes.allowance import read_allowance
from models.readers.level_notes.page_net import LEAST_SQUARES, PageAdjustment
from models.readers.level_notes.peg_page import PEG_COLUMNS, PegPage, is_peg_page, read_peg_page
from models.readers.level_notes.problems import NoteProblem
from models.readers.level_notes.reader import LevelNotes, read_notes
from models.readers.level_notes.reduced_page import ClosingReport, LevelBook, reduce_notes

__all__ = [
    "LEAST_SQUARES",
    "PEG_COLUMNS",
    "ClosingReport",
    "LevelBook",
    "LevelNotes",
    "NoteProblem",
    "PageAdjustment",
    "PegPage",
    "is_peg_page",
    "read_allowance",
    "read_notes",
    "read_peg_page",
    "reduce_notes",
]
