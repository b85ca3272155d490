"""A malformed drawing is refused in a sentence, and nothing is written."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crewapp.cli.main import main
from tests.crewapp.cli.bad_drawings import FILES

PLAN = Path(__file__).parents[3] / "fixtures" / "plans" / "small.json"


@pytest.fixture(scope="module")
def bare_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book with a job and a collector, and no surface; every case must leave it as it is."""
    folder = tmp_path_factory.mktemp("bare")
    told = {**json.loads(PLAN.read_text("utf-8")), "surface": []}
    (folder / "job.json").write_text(json.dumps(told), "utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("CREWAPP_HOME", str(folder / "home"))
        assert main(["plan", str(folder / "b.book"), str(folder / "job.json")]) == 0
    return folder / "b.book"


@pytest.mark.parametrize("name", FILES)
def test_malformed_drawing_is_a_sentence(
    bare_book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    """What was met, where, and what would be accepted; the book's bytes stay the same."""
    file, data, words, says = FILES[name]
    (tmp_path / file).write_bytes(data.encode() if isinstance(data, str) else data)
    before = bare_book.read_bytes()
    out = ("--out", str(tmp_path / "out"))

    code = main(["plan", "import", str(bare_book), str(tmp_path / file), *words, *out])

    told = capsys.readouterr().err
    assert code == 2
    assert told.startswith("crewapp: ")
    assert says in told
    assert bare_book.read_bytes() == before


def test_there_are_enough_of_them() -> None:
    """No fewer than forty ways in which a drawing can be wrong."""
    assert len(FILES) >= 40
