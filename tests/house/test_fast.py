"""The fast tier holds what it says: much that is quick, and nothing that waits for something."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests import fast
from tests.fast import FOLDERS, SLOW, is_fast, slow_imports
from tests.house.tree import ROOT, python_files

PARTS = {
    "models": "tests/models/*/",
    "published": "tests/published/",
    "handlers": "tests/crewapp/handlers/",
    "imports": "tests/crewapp/imports/",
    "views and presenters": "tests/crewapp/pages/*/",
    "papers": "tests/sync/papers/*/",
}


def taken() -> list[Path]:
    """Return the test files of the tier."""
    return [p for p in python_files("tests") if p.name.startswith("test_") and is_fast(p)]


def test_every_part_is_in_it() -> None:
    """Each part that it is meant for has files in it, and each of its folders is there."""
    files = [path.relative_to(ROOT) for path in taken()]
    lacking = [
        part for part, where in PARTS.items() if not any(f.match(f"{where}*.py") for f in files)
    ]
    assert lacking == []
    assert [folder for folder in FOLDERS if not (ROOT / folder).is_dir()] == []
    assert not any(f.match("tests/house/*.py") for f in files)


def test_every_presenter_that_needs_no_window_is_in_it() -> None:
    """What stands in its folders and is left out is left out for what it imports."""
    out = [
        path
        for path in python_files(*FOLDERS)
        if path.name.startswith("test_") and not is_fast(path)
    ]
    assert out
    assert [path for path in out if not slow_imports(path)] == []


def test_it_looks_into_folders_on_the_way() -> None:
    """A folder that leads to one of its own is entered, another is not."""
    folders = ("tests", "tests/crewapp", "tests/models/units", "tests/power", "tests/crewapp/cli")

    assert [is_fast(ROOT / one) for one in folders] == [True, True, True, False, False]


@pytest.mark.parametrize("name", SLOW)
def test_what_waits_is_left_out(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A planted file is left out, whether it imports what waits itself or by a neighbour."""
    monkeypatch.setattr(fast, "ROOT", tmp_path)
    folder = tmp_path / "tests" / "models"
    folder.mkdir(parents=True)
    quick, waits, through = (folder / f"test_{one}.py" for one in ("quick", "waits", "through"))
    quick.write_text("import json\n", encoding="utf-8")
    waits.write_text(f"def test() -> None:\n    from {name} import x\n", encoding="utf-8")
    through.write_text("from tests.models.test_waits import x\n", encoding="utf-8")

    assert [is_fast(one) for one in (quick, waits, through)] == [True, False, False]
    assert slow_imports(through) == [name]
