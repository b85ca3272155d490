"""More laid than planned and more used than delivered is said so, and never as less than nothing.

Worked as an office would: notes typed up into a copy of the demo, then every paper and list.
"""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
from pathlib import Path

import pytest

from crewapp.cli.main import main
from crewapp.job.open_job import OpenJob
from crewapp.pages.loads.presenter import loads_view
from crewapp.pages.loads.view import ShowLoads
from crewapp.pages.today.readiness_presenter import readiness_rows
from crewapp.tablet.clock import TabletClock
from crewapp.words.translate import set_language
from models.book.store import Book
from tests.sync.papers.pdf_reading import text_of

Captured = pytest.CaptureFixture[str]
DAY = "2026-05-14"
BELOW_NOTHING = re.compile(r"(?<![\w.+])[-\u2212]\d")


@pytest.fixture
def book(demo_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo with 3,000 ft of slit pipe laid and 100 tons of sand placed on a fourth day."""
    copy = Path(shutil.copytree(demo_folder, tmp_path / "demo"))
    monkeypatch.chdir(copy)
    Path("over.csv").write_text(
        "day,entry,surface,lines,material,coil,length,amount\n"
        f"{DAY},pipe,F2,P01,1 in slit pipe,R1,3000 ft,\n"
        f"{DAY},sand,F2,,slit sand,,,100 ton\n",
        "utf-8",
    )
    assert main(["log", "larkfield.book", "over.csv"]) == 0
    return copy / "larkfield.book"


def test_day_sheet_says_over(book: Path, capsys: Captured) -> None:
    """On paper in the place of what is left; in the data a column of its own.

    420 ft were laid before of 2,913.9 planned and 1,000 delivered; 9.59 of 41.96 tons were placed.
    """
    assert main(["sheet", str(book), "--day", DAY, "--out", "printed"]) == 0
    files = {path.suffix: path for path in Path("printed").iterdir()}
    lines = text_of(files[".pdf"]).splitlines()
    told = " ".join(" ".join(lines).split())
    rows = list(csv.reader(io.StringIO(files[".csv"].read_text("utf-8-sig"))))
    found = {tuple(row[:3]): row[4] for row in rows if row[0] in ("quantities", "balance")}
    names = {row[5]: row[1] for row in rows if row[2] in ("item", "material")}

    assert "Pipe in slits ft 3000.0 3420.0 506.1 over 2913.9" in told
    assert "1 in slit pipe ft 1000.0 3420.0 2420.0 over" in told
    assert "slit sand ton 41.96 109.59 67.63 over" in told
    place = names["Pipe in slits"]
    assert float(found["quantities", place, "left"]) == 0
    assert round(float(found["quantities", place, "over"]), 1) == 506.1
    place = names["1 in slit pipe"]
    assert float(found["balance", place, "on_hand"]) == 0
    assert float(found["balance", place, "over"]) == 2420
    assert not [value for value in found.values() if value.startswith("-")]


def test_other_papers_and_lists_say_over(book: Path, capsys: Captured) -> None:
    """The forecast, the office's report, and the as-built's list of what was delivered."""
    assert main(["progress", str(book), "--day", DAY]) == 0
    assert re.search(r"slit sand: [\d.]+ yd\S* more placed than delivered", capsys.readouterr().out)
    assert main(["office", "take", "--files", str(book)]) == 0
    capsys.readouterr()
    main(["office", "report"])
    assert re.search(r"[\d.]+ yd\S* over +CHECK: more placed", capsys.readouterr().out)
    assert main(["asbuilt", str(book), "--out", "built"]) == 0
    (paper,) = Path("built").glob("*.pdf")
    told = " ".join(text_of(paper).split())
    assert "1 in slit pipe ft 1000.0 3420.0 0.0 2420.0" in told
    assert "slit sand ton 41.96 109.59 0.00 67.63" in told


def test_glass_says_by_how_much(book: Path) -> None:
    """On the Loads page and Today's tile, in English and Spanish."""
    job = OpenJob(Book.open(book, stream="", read_only=True), TabletClock(), author="")
    try:
        for language, words in (("en", "more out than in"), ("es", "más de lo que entró")):
            set_language(language)
            tiles = {tile.material_id: tile.left for tile in loads_view(job, ShowLoads()).materials}
            sand = next(one.text for one in readiness_rows(job, DAY, []) if "yd" in one.text)
            assert all(
                words in text for text in (tiles["1 in slit pipe"], tiles["slit sand"], sand)
            )
            assert "2420.0 ft" in tiles["1 in slit pipe"]
            assert not BELOW_NOTHING.search(json.dumps([*tiles.values(), sand]))
    finally:
        set_language("en")
        job.close()
