"""Lines laid, bearings compared and the plan shown by command."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.books import book_to_read, book_to_write
from crewapp.cli.main import main
from crewapp.commands.passes import LayPipe, LogPass
from crewapp.job.dispatch import do
from models.entries.body import Body
from models.entries.index import EntryKind
from models.entries.kind_names import LAYOUT, SURFACE

PLAN = Path(__file__).parents[4] / "fixtures" / "plans" / "small.json"
FT = 304_800_000
IN = 25_400_000
Captured = pytest.CaptureFixture[str]


@pytest.fixture
def book(tmp_path: Path, capsys: Captured) -> Path:
    """The small job: a green of 30 by 8 ft with its patterns."""
    assert main(["plan", "import", str(tmp_path / "b.book"), str(PLAN)]) == 0
    capsys.readouterr()
    return tmp_path / "b.book"


def plan(book: Path, work: str, *words: str) -> int:
    """Run a work of ``plan`` on the green, unless other words name another surface."""
    named = () if "--surface" in words or work == "show" else ("--surface", "G7")
    return main(["plan", work, str(book), *named, *words])


def latest(book: Path, kind: EntryKind[Body], name: str = "G7") -> Any:
    """What stands in the book."""
    with book_to_read(book) as job:
        return job.state.latest(kind, name)


def test_lines_are_laid_and_told(book: Path, capsys: Captured) -> None:
    """Six sand slits for two legs, eight piped slits across them."""
    words = ("--sand-slits", "16in", "--sand-bearing", "E", "--sand-machine", "twin")

    assert plan(book, "layout", *words, "--piped-slits", "4ft", "--piped-bearing", "0") == 0

    told = capsys.readouterr().out
    assert "sand slits: 6 of 180 ft in all, 16 in apart, bearing 90 deg, 3 drives" in told
    assert "48 crossings" in told
    assert len(latest(book, SURFACE).lines) == 14


def test_one_keep_out_is_told_as_one(book: Path, capsys: Captured) -> None:
    """A single box in the way is counted without a plural."""
    page = book.parent / "boxes.csv"
    page.write_text("point,x,y\nbox,5,5\n", "utf-8")
    words = ("--surface", "G7", "--as", "keep-outs", "--radius", "6in")
    capsys.readouterr()

    assert main(["plan", "import", str(book), str(page), *words]) == 0
    assert ", 1 keep-out, " in capsys.readouterr().out


def test_piped_slits_lie_square_where_nobody_says_how(book: Path) -> None:
    """New ones cross every sand slit; ones that lie already stay as they lie."""
    words = ("--sand-slits", "16in", "--sand-bearing", "30")
    plan(book, "layout", *words, "--piped-slits", "4ft")

    terms = {one.use: one.bearing_udeg for one in latest(book, LAYOUT).terms}
    assert terms == {"sand_slit": 30_000_000, "piped_slit": 120_000_000}
    assert latest(book, LAYOUT).crossings > 0
    plan(book, "layout", "--sand-bearing", "45", "--piped-slits", "5ft")
    terms = {one.use: one.bearing_udeg for one in latest(book, LAYOUT).terms}
    assert terms == {"sand_slit": 45_000_000, "piped_slit": 120_000_000}


def test_a_collector_that_is_not_there_is_refused(book: Path, capsys: Captured) -> None:
    """Misspelt, it would leave every piped slit without its joint."""
    words = ("--sand-slits", "16in", "--drains-to", "C9")

    assert plan(book, "layout", *words) == 2
    assert "no collector C9" in capsys.readouterr().err
    assert latest(book, LAYOUT) is None


def test_figures_left_out_stay(book: Path) -> None:
    """A bearing changed alone keeps the spacing and the machine; a spacing alone, the bearing."""
    plan(book, "layout", "--sand-slits", "16in", "--sand-machine", "twin", "--sand-least", "2ft")
    plan(book, "layout", "--sand-bearing", "90", "--sand-first", "4in")
    plan(book, "layout", "--sand-slits", "12in", "--sand-first", "even", "--setback", "3in")

    (terms,) = latest(book, LAYOUT).terms
    assert (terms.spacing_nm, terms.bearing_udeg, terms.first_nm) == (12 * IN, 90_000_000, None)
    assert (terms.machine_id, terms.legs, terms.least_nm) == ("twin", 2, 2 * FT)


def test_pattern_gives_the_spacing_where_nobody_says(book: Path) -> None:
    """A bearing alone lays lines at the 16 in of the pattern."""
    assert plan(book, "layout", "--sand-bearing", "90") == 0

    assert latest(book, LAYOUT).terms[0].spacing_nm == 16 * IN


def test_typed_surfaces_get_their_patterns(book: Path) -> None:
    """A rectangle and a circle, each with a pattern written in one line."""
    pattern = "width=1 in, width tolerance=1/4 in, depth=9 in, under=1/2 in, over=1 in, "
    pattern += "probe every=15 ft, probe end=3 ft"
    new = ("--name", "F", "--use", "field", "--sand-slits", "16in", "--sand-pattern", pattern)
    round_one = ("--surface", "R1", "--circle", "40 ft", "--at", "100 ft, 50 ft")
    long_one = ("--surface", "R2", "--rectangle", "60 ft x 100 ft", "--towards", "N 30 E")

    assert plan(book, "layout", *round_one, *new) == 0
    assert plan(book, "layout", *long_one, *new, "--sand-bearing", "30") == 0

    assert latest(book, SURFACE, "R1").sand_slits.depth_nm == 9 * IN
    lines = latest(book, SURFACE, "R2").lines
    assert len(lines) == 45
    assert all(abs(line.length_nm - 100 * FT) < 10 for line in lines)


def test_dry_run_writes_nothing(book: Path, capsys: Captured) -> None:
    """A dry run prints the same and exits 1 where work stands in the way."""
    assert plan(book, "layout", "--sand-slits", "12in", "--dry-run") == 0
    assert "Nothing was written." in capsys.readouterr().out
    with book_to_write(book, "Ana") as job:
        do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))

    assert plan(book, "layout", "--sand-slits", "12in", "--dry-run") == 1
    assert "work stands on S01" in capsys.readouterr().out
    assert plan(book, "layout", "--sand-slits", "12in") == 2
    assert "G7 has work on S01" in capsys.readouterr().err
    assert latest(book, LAYOUT) is None


def test_json_holds_the_layout(book: Path, capsys: Captured) -> None:
    """Lines, drives and counts for machines."""
    words = ("--sand-slits", "16in", "--sand-bearing", "0", "--no-piped-slits", "--json")
    assert plan(book, "layout", *words) == 0

    told = json.loads(capsys.readouterr().out)
    assert told["bearings"] == []
    assert (told["written"], told["uses"][0]["pieces"], told["uses"][1]["pieces"]) == (2, 23, 0)
    assert len(told["layout"]["drives"]) == 23


def test_bearings_stand_in_one_table(book: Path, capsys: Captured) -> None:
    """One row a bearing, every 15 degrees where none are named; nothing is written."""
    assert plan(book, "compare", "--sand-slits", "16in", "--bearings", "0,90,N 45 E") == 0
    rows = capsys.readouterr().out.splitlines()
    assert plan(book, "compare", "--sand-slits", "16in", "--json") == 0
    told = json.loads(capsys.readouterr().out)

    assert [row.strip().split("  ")[0] for row in rows] == ["bearing", "0 deg", "90 deg", "45 deg"]
    assert rows[2].split()[2:6] == ["6", "6", "6", "5"]
    assert [row["bearing_udeg"] for row in told["rows"]] == list(range(0, 180_000_000, 15_000_000))
    assert latest(book, LAYOUT) is None


def test_bearings_are_compared_at_the_spacing_of_the_pattern(book: Path, capsys: Captured) -> None:
    """A plan that was only brought in knows its spacings: none has to be typed again."""
    assert plan(book, "compare", "--bearings", "90") == 0
    assert capsys.readouterr().out.splitlines()[1].split()[2] == "6"
    assert plan(book, "compare", "--lines", "piped", "--bearings", "0") == 0
    assert capsys.readouterr().out.splitlines()[1].split()[2] == "8"


def test_options_are_not_guessed_from_their_beginnings(book: Path, capsys: Captured) -> None:
    """Two bearings given as --bearing twice would have left the last alone: it is refused."""
    with pytest.raises(SystemExit) as stopped:
        plan(book, "compare", "--sand-slits", "16in", "--bearing", "0", "--bearing", "45")

    assert stopped.value.code == 2
    assert "unrecognized arguments: --bearing" in capsys.readouterr().err


def test_plan_is_shown(book: Path, capsys: Captured) -> None:
    """Surfaces with their lines and areas, then the names of the rest."""
    assert plan(book, "show") == 0
    told = capsys.readouterr().out
    assert plan(book, "show", "--json") == 0
    facts = json.loads(capsys.readouterr().out)

    assert "G7 Green seven (green), 240 ft2" in told
    assert "collector: C1" in told
    assert facts["plan"]["surface"][0]["surface_id"] == "G7"


def test_plan_file_that_moves_cut_lines_is_refused(book: Path, capsys: Captured) -> None:
    """What was cut keeps its place; the rest of the plan may change."""
    with book_to_write(book, "Ana") as job:
        do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))
    told = json.loads(PLAN.read_text("utf-8"))
    told["surface"][0]["rectangle"]["north"] = "2 ft"
    (book.parent / "moved.json").write_text(json.dumps(told), "utf-8")

    assert main(["plan", "import", str(book), str(book.parent / "moved.json")]) == 2
    assert "surface (G7), lines: 'S01' would lie elsewhere" in capsys.readouterr().err
    told["surface"][0]["rectangle"] = {"along": "30 ft", "across": "12 ft"}
    (book.parent / "wider.json").write_text(json.dumps(told), "utf-8")
    assert main(["plan", "import", str(book), str(book.parent / "wider.json"), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["written"] == 11


def test_plan_file_that_turns_worked_stations_is_refused(book: Path, capsys: Captured) -> None:
    """Pipe laid by station keeps its place; before that, and else, the collector may change."""
    told = json.loads(PLAN.read_text("utf-8"))
    told = {"collector": [told["collector"][0]]}
    turned = json.loads(json.dumps(told))
    turned["collector"][0]["design"]["stationed_from"] = "head"
    path = book.parent / "turned.json"
    path.write_text(json.dumps(turned), "utf-8")
    assert main(["plan", "import", str(book), str(path)]) == 0
    with book_to_write(book, "Ana") as job:
        do(job, LayPipe(material_id="p", length_nm=FT, length_typed="1", collector_id="C1"))

    path.write_text(json.dumps(told), "utf-8")
    capsys.readouterr()
    assert main(["plan", "import", str(book), str(path)]) == 2
    assert "collector (C1), design: 'C1' would count its stations" in capsys.readouterr().err
    turned["collector"][0]["design"]["least_grade"] = "0.4 %"
    path.write_text(json.dumps(turned), "utf-8")
    assert main(["plan", "import", str(book), str(path)]) == 0


def test_layout_goes_when_its_lines_do(book: Path) -> None:
    """A plan file that gives a surface other lines strikes the layout that told of the old."""
    plan(book, "layout", "--sand-slits", "12in")
    assert main(["plan", "import", str(book), str(PLAN)]) == 0

    assert latest(book, LAYOUT) is None


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--surface", "Z9"), "no surface Z9"),
        (("--setback", "1ft"), "no lines were asked for"),
        (("--sand-slits", "sixteen"), "Cannot read 'sixteen'"),
        (("--sand-slits", "0in"), "spacing"),
        (("--sand-slits", "17in", "--sand-machine", "twin"), "Lines 16 in (406.4 mm) apart"),
        (("--sand-slits", "16in", "--sand-machine", "saw"), "no machine saw"),
        (("--sand-slits", "16in", "--sand-legs", "2"), "the legs of a machine"),
        (("--sand-slits", "16in", "--sand-legs", "x"), "as a count"),
        (("--sand-slits", "16in", "--sand-bearing", "leftish"), "as a bearing"),
        (("--sand-slits", "16in", "--sand-first=-3in"), "minus sign"),
        (("--sand-slits", "16in", "--setback", "9ft"), "leave nothing"),
        (("--sand-slits", "0.001in"), "lines"),
        (("--sand-slits", "16in", "--rectangle", "60 ft"), "two sides of a rectangle"),
        (("--sand-slits", "16in", "--rectangle", "0ft x 9ft"), "two sides above zero"),
        (("--sand-slits", "16in", "--circle", "9ft", "--rectangle", "1ft x 1ft"), "not both"),
        (("--sand-slits", "16in", "--circle", "9ft", "--at", "4 ft"), "east and north"),
        (("--sand-slits", "16in", "--circle", "0"), "a circle"),
        (("--sand-slits", "16in", "--sand-pattern", "deep"), "part of a slit pattern"),
        (("--sand-slits", "16in", "--sand-pattern", "depth=9"), "has no unit"),
        (("--sand-slits", "16in", "--reach", "far"), "Cannot read 'far'"),
        (("--sand-slits", "16in", "--name", ""), "name"),
    ],
)
def test_bad_words_are_sentences(
    book: Path, capsys: Captured, words: tuple[str, ...], says: str
) -> None:
    """Each is refused with what was met and what would be accepted; nothing is written."""
    with book_to_read(book) as job:
        before = job.book.count()

    assert plan(book, "layout", *words) == 2

    assert says in capsys.readouterr().err
    with book_to_read(book) as job:
        assert job.book.count() == before


def test_bearings_that_are_none_are_refused(book: Path, capsys: Captured) -> None:
    """A bearing that can't be read, too many, and lines of which no spacing is known."""
    many = ",".join(["0"] * 400)
    new = ("--surface", "Z", "--name", "Z", "--use", "green", "--circle", "30 ft")
    bad = (("--bearings", "0,up"), ("--bearings", many), new[:2], (*new, "--lines", "piped"))
    for words in bad:
        assert plan(book, "compare", "--sand-slits", "16in", *words) == 2
        assert capsys.readouterr().err.startswith("crewapp: ")
