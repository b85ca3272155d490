"""The first word of the command line: a command, a book, or a word that is neither."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewapp.cli import open as opening
from crewapp.cli.main import main
from crewapp.device.display import Display

Captured = pytest.CaptureFixture[str]


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[Path | None]:
    """Books that the app was opened on; its window is left out (tests/readme opens it)."""
    found: list[Path | None] = []

    def note(book: Path | None, display: Display) -> int:
        assert display.driver  # the display that was found is the one handed on
        found.append(book)
        return 0

    monkeypatch.setattr(opening, "open_app", note)
    return found


def test_a_book_opens_the_app_on_it(demo_book: Path, opened: list[Path | None]) -> None:
    """``crewapp BOOK``, ``crewapp open BOOK``, and ``crewapp`` alone for the last one."""
    assert main([str(demo_book)]) == 0
    assert main(["open", str(demo_book)]) == 0
    assert main([]) == 0
    assert opened == [demo_book, demo_book, None]


def test_a_command_wins_over_a_file_of_its_name(
    tmp_path: Path, opened: list[Path | None], monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    """A file named columns in the folder does not hide the command; as ./columns it is a file."""
    monkeypatch.chdir(tmp_path)
    Path("columns").write_text("mine", "utf-8")

    assert main(["columns"]) == 0
    assert "delivery" in capsys.readouterr().out
    assert main(["./columns"]) == 2
    assert "Cannot open" in capsys.readouterr().err
    assert opened == []


def test_a_file_that_is_no_book_opens_nothing(
    tmp_path: Path, opened: list[Path | None], capsys: Captured
) -> None:
    """Notes are no book: a sentence in the terminal, no window."""
    notes = tmp_path / "notes.csv"
    notes.write_text("day,entry\n", "utf-8")

    assert main([str(notes)]) == 2
    assert main(["open", str(tmp_path / "gone.book")]) == 2
    said = capsys.readouterr().err
    assert "Cannot open" in said
    assert "There is no book at" in said
    assert opened == []


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["shet"], "'shet' is no command and no file here. The nearest is crewapp sheet."),
        (["Check", "a.book"], "The nearest is crewapp check."),
        (["plan", "layuot", "a.book"], "The nearest is crewapp plan layout."),
        (["plan", "layout2", "a.book"], "The nearest is crewapp plan layout."),
        (
            ["office", "reprot"],
            "The nearest is crewapp office report.",
        ),
        (["handover", "mak", "a.book"], "The nearest is crewapp handover make."),
        (["qqqq"], "'qqqq' is no command and no file here. crewapp --help lists what there is."),
        (["q" * 5000], "is no command and no file here."),
        (["nowhere.book"], "'nowhere.book' is no command and no file here."),
    ],
)
def test_the_nearest_command_is_named(
    words: list[str], says: str, opened: list[Path | None], capsys: Captured
) -> None:
    """One line on stderr, exit 2, nothing opened."""
    assert main(words) == 2

    told = capsys.readouterr()
    assert told.err.startswith(f"crewapp: {says}") or says in told.err
    assert (told.err.count("\n"), told.out) == (1, "")
    assert opened == []


def test_a_plan_file_still_needs_no_more_words(tmp_path: Path, capsys: Captured) -> None:
    """``crewapp plan BOOK FILE`` takes it in, whatever the book is called."""
    plan = Path(__file__).parents[3] / "fixtures" / "plans" / "small.json"
    for name in ("b.book", "layouts.book", "job"):
        assert main(["plan", str(tmp_path / name), str(plan)]) == 0
    assert "entries inked" in capsys.readouterr().out
