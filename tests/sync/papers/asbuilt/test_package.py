"""The whole package: every file once, told as it is made, listed with its digest."""

from __future__ import annotations

import hashlib
import subprocess
import sys

from sync.papers.asbuilt.package import CONTENTS, PDF, XLSX, MadeFile, build_package, file_names
from tests.sync.papers.asbuilt.record_books import plan_alone, us_record
from tests.sync.papers.asbuilt.small_green import written_green
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.sample_day import metric_book


def made(book: DayWriter) -> list[MadeFile]:
    """Every file of a book's package."""
    return list(build_package(book.state, book.board()).files())


def test_files_are_told_one_by_one() -> None:
    """Places run from one to the count that was told at the start, PDF first, list last."""
    files = made(written_green())

    assert [file.place for file in files] == list(range(1, files[0].count + 1))
    assert {file.count for file in files} == {len(files)}
    assert [files[0].name, files[1].name, files[-1].name] == [PDF, XLSX, CONTENTS]
    assert {"asbuilt.dxf", "asbuilt.geojson", "pipe-run.xml"} <= {file.name for file in files}


def test_names_of_files_are_known_before_any_is_made() -> None:
    """By these names an earlier package is told from what is somebody else's."""
    assert {file.name for file in made(written_green())} == file_names()


def test_list_holds_the_digest_of_every_file() -> None:
    """Whoever has the list can tell whether a file is the one that was handed over."""
    *files, contents = made(written_green())
    lines = contents.data.decode().splitlines()

    for file in files:
        digest = hashlib.sha256(file.data).hexdigest()
        assert any(line.startswith(f"{digest}  {file.name}  ") for line in lines)


def test_what_cannot_be_made_is_said_with_its_reason() -> None:
    """Without a place on the Earth there is no GeoJSON, and the list says why."""
    book = us_record()
    package = build_package(book.state, book.board())
    files = {file.name: file.data for file in package.files()}

    assert "asbuilt.geojson" not in files
    assert [name for name, _ in package.unavailable_files] == ["asbuilt.geojson", "asbuilt.kml"]
    assert "asbuilt.geojson: " in files[CONTENTS].decode()


def test_any_job_makes_a_package() -> None:
    """Nothing cut, no collector, no job at all: every file is made."""
    for book in (plan_alone(), metric_book(), DayWriter()):
        assert len(made(book)) > 5


def test_same_book_gives_the_same_package() -> None:
    """Two packages of two equal books are the same bytes, file by file."""
    first, second = ({file.name: file.data for file in made(written_green())} for _ in range(2))

    assert first == second


WITHOUT_GEOMETRY = """
import sys
for name in ("shapely", "numpy"):
    sys.modules[name] = None
from sync.papers.asbuilt.package import build_package
from tests.sync.papers.asbuilt.small_green import written_green
book = written_green()
names = [file.name for file in build_package(book.state, book.board()).files()]
assert "asbuilt.pdf" in names and "asbuilt.gpkg" in names, names
print(len(names))
"""


def test_package_is_made_without_the_geometry_library() -> None:
    """With shapely and numpy absent the record is made; what needs them is left out and said."""
    done = subprocess.run(
        [sys.executable, "-c", WITHOUT_GEOMETRY], capture_output=True, check=False, text=True
    )

    assert done.returncode == 0, done.stderr
    assert int(done.stdout) > 5
