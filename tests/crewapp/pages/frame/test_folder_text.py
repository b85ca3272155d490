"""A folder's path as people read it."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewapp.pages.frame.folder_text import folder_text


@pytest.mark.parametrize(
    ("folder", "shown"),
    [
        ("/home/ann/inbox", "~/inbox"),
        ("/home/ann", "~"),
        ("/home/anna/inbox", "/home/anna/inbox"),  # another's, whose name begins alike
        ("/media/stick", "/media/stick"),
    ],
)
def test_only_what_lies_at_home_is_told_from_there(
    monkeypatch: pytest.MonkeyPatch, folder: str, shown: str
) -> None:
    """The user's own home is a tilde, and nobody else's."""
    monkeypatch.setattr(Path, "home", lambda: Path("/home/ann"))

    assert folder_text(folder) == shown
