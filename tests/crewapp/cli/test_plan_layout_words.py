"""Every option of ``plan layout``, left out and put together, on ground of every kind."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from random import Random
from typing import Any

import pytest

from crewapp.cli.books import book_to_read, book_to_write
from crewapp.cli.main import main, make_parser
from crewapp.commands.passes import LogPass
from crewapp.demo.story import PLAN
from crewapp.job.dispatch import do
from models.entries.bodies.planning import SurfaceLayout
from models.entries.kind_names import LAYOUT

Captured = pytest.CaptureFixture[str]

NEW = ("--name", "New", "--use", "field", "--rectangle", "60 ft x 100 ft")
PATTERN = (
    "width=1 in, width tolerance=1/4 in, depth=9 in, under=1/2 in, over=1 in, "
    "probe every=15 ft, probe end=3 ft, pipe outside=1 in"
)
TEXTS: dict[str, str] = {
    "name": "Five", "use": "green", "drains_to": "C1", "rectangle": "60 ft x 100 ft",
    "circle": "30 ft", "at": "10 ft, 0", "towards": "N 30 E", "setback": "1 ft",
    "reach": "5 ft", "slits": "16 in", "bearing": "20", "first": "even", "least": "2 ft",
    "machine": "twin", "legs": "2 x 4 ft", "turning": "8 ft", "pattern": PATTERN,
}  # fmt: skip
"""A text for each option, by its name or by the last word of it."""


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's plan brought in, once as it is and once with work on G5."""
    folder = tmp_path_factory.mktemp("books")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("CREWAPP_HOME", str(folder / "home"))
        for name in ("planned", "worked"):
            assert main(["plan", "import", str(folder / f"{name}.book"), str(PLAN)]) == 0
        with book_to_write(folder / "worked.book", "Ana") as job:
            do(
                job,
                LogPass(surface_id="G5", line_ids=("S01",), length_nm=10**9, length_typed="1 m"),
            )
    return folder


def options() -> dict[str, tuple[str, ...]]:
    """Every option of the command with a text for it, read off the parser itself."""
    named = make_parser().parse_args(["plan", "layout", "a.book", "--surface", "G5"])
    plain = {"command", "work", "module", "book", "surface", "author", "json", "debug"}
    found: dict[str, tuple[str, ...]] = {}
    for name, default in vars(named).items():
        words = f"--{name.replace('_', '-')}"
        if name not in plain:
            is_flag = isinstance(default, bool)
            found[words] = (words,) if is_flag else (words, _text(name))
    return found


def _text(name: str) -> str:
    return TEXTS[name] if name in TEXTS else TEXTS[name.rpartition("_")[2]]


def test_every_option_is_known_here() -> None:
    """Both uses with all that can be said of them, the shapes, the ways of writing."""
    assert len(options()) == 28
    assert {"--piped-turning", "--no-sand-slits", "--towards", "--dry-run"} <= options().keys()


def lay(folder: Path, kind: str, *words: str) -> tuple[int, Path, int]:
    """Run the command on a fresh copy; return its exit code, the book, entries before."""
    book = folder / "tried.book"
    for left in folder.glob("tried.book*"):
        left.unlink()
    shutil.copyfile(folder / ("worked.book" if kind == "worked" else "planned.book"), book)
    with book_to_read(book) as job:
        before = job.book.count()
    surface = "N1" if kind == "new" else "G5"
    return main(["plan", "layout", str(book), "--surface", surface, *words]), book, before


def told_words(kind: str, names: list[str]) -> list[str]:
    """Words of some options; a new surface is always given what it can't do without."""
    words = [word for name in names for word in options()[name]]
    return [*words, *NEW] if kind == "new" and "--circle" not in names else words


def judge(folder: Path, kind: str, names: list[str], capsys: Captured) -> None:
    """It is done, or a sentence says why not and nothing was written."""
    code, book, before = lay(folder, kind, *told_words(kind, names))
    said = capsys.readouterr()
    with book_to_read(book) as job:
        after = job.book.count()
    if code == 2:
        assert said.err.startswith("crewapp: "), names
        assert after == before
    else:
        assert code == (1 if "could not be written" in said.out else 0), names
        assert (after == before) == ("--dry-run" in names), names


@pytest.mark.parametrize("kind", ["lines", "new", "worked"])
def test_each_option_alone_does_or_says(kind: str, books: Path, capsys: Captured) -> None:
    """Whatever else is left out: 28 options on lines, on new ground, and under work."""
    for name in options():
        judge(books, kind, [name], capsys)


@pytest.mark.parametrize("kind", ["lines", "new", "worked"])
def test_options_together_do_or_say(kind: str, books: Path, capsys: Captured) -> None:
    """Twelve handfuls of options, drawn the same each time."""
    draw = Random(f"handfuls of {kind}")
    for _ in range(12):
        names = draw.sample(sorted(options()), draw.randint(2, 9))
        judge(books, kind, names, capsys)


def test_the_command_of_the_readme(books: Path, capsys: Captured) -> None:
    """Spacings alone on a plan that was brought in: lines keep their way, and it is said."""
    words = ("--sand-slits", "16in", "--piped-slits", "4ft")

    code, book, _ = lay(books, "lines", *words)

    assert code == 0
    said = capsys.readouterr().out
    assert "Bearing of the sand slits: 0 deg; none was given, so as they lie on the plan." in said
    assert "Bearing of the piped slits: 90 deg; none was given, so square to the sand" in said
    assert bearings(book) == {"sand_slit": 0, "piped_slit": 90}
    assert lay(books, "worked", *words)[0] == 0  # laid as they lay: S01 means the same place


def test_new_ground_is_laid_along_its_longest_way(books: Path, capsys: Captured) -> None:
    """100 ft by 60 ft, turned: sand slits along it, piped ones across, told in a sentence."""
    words = ("--sand-slits", "16in", "--piped-slits", "4ft", "--towards", "N 30 E")

    code, book, _ = lay(books, "new", *NEW, *words)

    assert code == 0
    assert "30 deg; none was given, so along the longest way" in capsys.readouterr().out
    assert bearings(book, "N1") == {"sand_slit": 30, "piped_slit": 120}
    assert lay(books, "new", *NEW, *words, "--json")[0] == 0
    told = json.loads(capsys.readouterr().out)
    assert [one["reason"] for one in told["bearings"]] == ["longest", "square"]


def bearings(book: Path, surface: str = "G5") -> dict[str, int]:
    """Bearings that stand, in whole degrees."""
    with book_to_read(book) as job:
        layout: Any = job.state.latest(LAYOUT, surface)
    assert isinstance(layout, SurfaceLayout)
    return {one.use: round(one.bearing_udeg / 1_000_000) for one in layout.terms}
