"""The demo, made once for all tests that only look at it."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture
def demo_book(demo_folder: Path) -> Path:
    """The book of the demo; not to be written into."""
    return demo_folder / "larkfield.book"


@pytest.fixture(autouse=True)
def _tablet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every test has a tablet of its own."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "home"))
