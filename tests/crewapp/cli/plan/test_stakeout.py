"""``crewapp plan stakeout``: files for the morning, and a sentence for what can't be had."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crewapp.cli.main import main


def test_files_are_written_and_told(
    demo_book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """PDF, workbook and CSV lie in the folder; the book is as it was."""
    before = demo_book.read_bytes()

    assert main(["plan", "stakeout", str(demo_book), "--out", str(tmp_path), "--json"]) == 0

    told = json.loads(capsys.readouterr().out)
    assert [Path(name).suffix for name in told["files"]] == [".pdf", ".xlsx", ".csv"]
    assert all(Path(name).stat().st_size for name in told["files"])
    assert {one["name"].split()[0] for one in told["surfaces"]} == {"G5", "F2"}
    assert demo_book.read_bytes() == before


def test_one_surface_brings_its_own_collector_alone(
    demo_book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The green drains to no collector of the plan: no cut sheet; the field's has its rods."""
    words = ["plan", "stakeout", str(demo_book), "--out", str(tmp_path), "--json"]
    main([*words, "--surface", "G5"])
    green = json.loads(capsys.readouterr().out)
    main([*words, "--surface", "F2", "--setup", "L3", "--every", "5 ft"])
    field = json.loads(capsys.readouterr().out)

    assert [table["name"].split("-")[0].lower() for table in green["tables"]] == ["g5", "g5"]
    cuts = field["tables"][-1]
    assert len(cuts["rows"]) == 27
    assert cuts["rows"][0][cuts["columns"].index("rod_on_invert_ft")] == 7.51


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--surface", "G9"], "has no surface G9"),
        (["--setup", "L9"], "has no setup L9"),
        (["--every", "0 ft"], "lie on one another"),
        (["--every", "-5 ft"], "a minus sign is not used here"),
        (["--every", "0.001 in"], "would be more than"),
        (["--every", "ten paces"], "ten paces"),
    ],
)
def test_what_cannot_be_had_is_a_sentence(
    demo_book: Path,
    tmp_path: Path,
    words: list[str],
    said: str,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """What, where, and what would be accepted; no file is left."""
    out = tmp_path / "out"

    assert main(["plan", "stakeout", str(demo_book), "--out", str(out), *words]) == 2
    assert said in capsys.readouterr().err
    assert not out.exists()


def test_a_folder_that_is_a_file_is_a_sentence(
    demo_book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is put over somebody's file."""
    (tmp_path / "mine").write_text("mine")

    assert main(["plan", "stakeout", str(demo_book), "--out", str(tmp_path / "mine")]) == 2
    assert "was not written" in capsys.readouterr().err
    assert (tmp_path / "mine").read_text() == "mine"
