"""crewapp asbuilt, and crewapp verify over the code of a whole book."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.books import book_to_read, book_to_write
from crewapp.cli.main import main
from crewapp.commands.day import LogNote
from crewapp.commands.photos import KeepPhoto
from crewapp.demo.story import demo_job
from crewapp.handlers.asbuilt import make_as_built
from crewapp.job.dispatch import do
from models.state.check_code import book_code
from tests.sync.papers.asbuilt.test_photos import picture
from tests.sync.papers.pdf_reading import run as run_program

Captured = pytest.CaptureFixture[str]


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's job with its plan, before its first day; not to be written into."""
    path = tmp_path_factory.mktemp("planned") / "job.book"
    with demo_job(path):
        return path


def examples_text(capsys: Captured, *words: object, code: int = 0) -> Any:
    """Run a command with --json and return what it tells."""
    assert main([*map(str, words), "--json"]) == code
    return json.loads(capsys.readouterr().out)


def test_package_is_written_and_its_code_proven(
    planned: Path, tmp_path: Path, capsys: Captured
) -> None:
    """Every file told is there and not empty; the code printed is proven by the book."""
    facts = examples_text(capsys, "asbuilt", planned, "--out", tmp_path / "record")
    files = [Path(name) for name in facts["files"]]
    proof = examples_text(capsys, "verify", planned, "--code", facts["check_code"])["proofs"][0]

    assert {file.name for file in files} >= {"asbuilt.pdf", "asbuilt.xlsx", "asbuilt.dxf"}
    assert all(file.stat().st_size for file in files)
    assert proof["outcome"] == "proven"
    assert "entries of the book as they stand" in proof["sentence"]


def test_progress_is_told_file_by_file(planned: Path, tmp_path: Path, capsys: Captured) -> None:
    """People see a line for each file, the code, and how to prove it later."""
    assert main(["asbuilt", str(planned), "--out", str(tmp_path / "record")]) == 0

    out = capsys.readouterr().out
    assert "  1 of " in out
    assert "asbuilt.pdf" in out
    assert "Prove it later with: crewapp verify" in out


def test_book_that_went_on_is_told_apart(planned: Path, tmp_path: Path, capsys: Captured) -> None:
    """An older code is known, and what was written since is named."""
    book = tmp_path / "copy.book"
    shutil.copyfile(planned, book)
    with book_to_read(book) as job:
        code = book_code(job.state)
    with book_to_write(book, "Wren") as job:
        do(job, LogNote(text="written after the record was printed"))
    proof = examples_text(capsys, "verify", book, "--code", code, code=1)["proofs"][0]

    assert "1 entry was written since" in proof["sentence"]
    assert "written after the record was printed" in proof["differs"][0]


def test_folder_of_somebody_else_is_left_alone(
    planned: Path, tmp_path: Path, capsys: Captured
) -> None:
    """A foreign file stops it before anything is written, and is named."""
    (tmp_path / "letter.txt").write_text("mine")
    assert main(["asbuilt", str(planned), "--out", str(tmp_path)]) == 2

    assert "holds letter.txt" in capsys.readouterr().err
    assert sorted(path.name for path in tmp_path.iterdir() if path.name != "home") == ["letter.txt"]


def test_earlier_package_gives_way_whole(planned: Path, tmp_path: Path, capsys: Captured) -> None:
    """Made again into its folder, nothing of the package before is left over."""
    out = tmp_path / "record"
    examples_text(capsys, "asbuilt", planned, "--out", out)
    (out / "csv" / "old.csv").write_text("left by an earlier version")
    with (out / "contents.txt").open("a") as contents:
        contents.write(f"{'0' * 64}  csv/old.csv  (9 bytes; a table)\r\n")
    (out / ".asbuilt.dxf.part").write_text("left by a cut")
    files = examples_text(capsys, "asbuilt", planned, "--out", out, "--paper", "a3")["files"]

    assert sorted(map(str, (p for p in out.rglob("*") if p.is_file()))) == sorted(files)


@pytest.mark.parametrize(
    ("others", "named"),
    [
        (("csv/payroll.csv",), "csv/payroll.csv"),
        (("csv/photos.csv",), "csv/photos.csv"),
        (("asbuilt.pdf", "csv/payroll.csv"), "csv/payroll.csv"),
        (("contents.txt",), "contents.txt"),
        (("csv",), "csv"),
    ],
)
def test_names_that_anybody_may_use_are_not_taken_for_ours(
    planned: Path, tmp_path: Path, capsys: Captured, others: tuple[str, ...], named: str
) -> None:
    """Somebody's own tables or list of contents are neither taken away nor written over."""
    out = tmp_path / "mine"
    for name in others:
        (out / name).parent.mkdir(parents=True, exist_ok=True)
        (out / name).write_text("mine")
    assert main(["asbuilt", str(planned), "--out", str(out)]) == 2

    assert f"holds {named}, which" in capsys.readouterr().err
    assert all((out / name).read_text() == "mine" for name in others)


def test_package_cut_off_leaves_the_earlier_one_whole(planned: Path, tmp_path: Path) -> None:
    """Cut off after its second file, it changes nothing and leaves nothing beside."""
    out = tmp_path / "record"

    def cut(name: str, place: int, count: int) -> None:
        if place == 2:
            raise KeyboardInterrupt

    with book_to_read(planned) as job:
        make_as_built(job, folder=str(out))
        before = {path: path.read_bytes() for path in out.rglob("*") if path.is_file()}
        with pytest.raises(KeyboardInterrupt):
            make_as_built(job, folder=str(out), paper="a3", told=cut)
        after = {path: path.read_bytes() for path in out.rglob("*") if path.is_file()}
        with pytest.raises(KeyboardInterrupt):
            make_as_built(job, folder=str(tmp_path / "new"), told=cut)
    assert after == before
    assert {path.name for path in tmp_path.iterdir()} <= {"record", "home"}


def test_unsound_book_is_told_on_every_sheet(
    planned: Path, tmp_path: Path, capsys: Captured
) -> None:
    """A record of a book that was changed says so on each sheet and in the list, and exits 1."""
    book, out = tmp_path / "copy.book", tmp_path / "record"
    shutil.copyfile(planned, book)
    whole = book.read_bytes()
    book.write_bytes(whole.replace(b"Tern Valley Turf Drainage", b"Fern Valley Turf Drainage"))
    facts = examples_text(capsys, "asbuilt", book, "--out", out, code=1)
    sheets = run_program("pdftotext", str(out / "asbuilt.pdf"), "-").split("\f")[:-1]

    assert not facts["book_is_sound"]
    assert all("THE BOOK IS NOT AS IT WAS WRITTEN" in sheet for sheet in sheets)
    assert "NOT AS IT WAS WRITTEN" in (out / "contents.txt").read_text()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--paper", "a9"), "letter, tabloid, a4, a3"),
        (("--scale", "big"), "1 in = 20 ft"),
        (("--scale", "1:10"), "more than 60"),
    ],
)
def test_bad_words_get_a_sentence_and_write_nothing(
    planned: Path, tmp_path: Path, capsys: Captured, words: tuple[str, ...], sentence: str
) -> None:
    """A paper or a scale that can't be used is refused before a file is made."""
    out = tmp_path / "record"
    assert main(["asbuilt", str(planned), "--out", str(out), *words]) == 2

    assert sentence in capsys.readouterr().err
    assert not out.exists()


def test_photos_beside_the_book_are_printed(
    planned: Path, tmp_path: Path, capsys: Captured
) -> None:
    """A photo that was kept is in the PDF; one whose file was spoilt since is not."""
    book, source = tmp_path / "copy.book", tmp_path / "outlet.jpg"
    shutil.copyfile(planned, book)
    source.write_bytes(picture(400, 300))
    with book_to_write(book, "Wren") as job:
        do(job, KeepPhoto(path=str(source), caption="The outlet"))
    out = tmp_path / "record"
    examples_text(capsys, "asbuilt", book, "--out", out)
    listed = run_program("pdfimages", "-list", str(out / "asbuilt.pdf"))
    kept = next((tmp_path / "copy.book.photos").iterdir())
    kept.write_bytes(picture(300, 300))
    examples_text(capsys, "asbuilt", book, "--out", out)

    assert listed.count("jpeg") == 1
    assert run_program("pdfimages", "-list", str(out / "asbuilt.pdf")).count("jpeg") == 0
