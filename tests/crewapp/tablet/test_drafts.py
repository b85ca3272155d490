"""Half-typed input: kept at once, read back by another process, never in the way."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewapp.tablet.drafts import Drafts


def test_draft_is_on_the_disk_at_once(tmp_path: Path) -> None:
    """Another start reads what this one kept, without being told to save."""
    Drafts(tmp_path).keep("pass", {"typed": "8-1/2"})

    assert Drafts(tmp_path).read("pass") == {"typed": "8-1/2"}


def test_draft_cleared_is_gone(tmp_path: Path) -> None:
    """Inked or given up: nothing comes back."""
    drafts = Drafts(tmp_path)
    drafts.keep("pass", {"typed": "8"})
    drafts.clear("pass")

    assert Drafts(tmp_path).read("pass") == {}


def test_screens_have_drafts_of_their_own(tmp_path: Path) -> None:
    """What is half-typed on one page is not on another."""
    drafts = Drafts(tmp_path)
    drafts.keep("pass", {"typed": "8"})

    assert drafts.read("grade") == {}


@pytest.mark.parametrize("rubbish", [b"", b"{", b"[1]", b"\xff\xfe", b'"text"'])
def test_rubbish_counts_as_no_draft(tmp_path: Path, rubbish: bytes) -> None:
    """A file cut off by a dead battery stops nobody."""
    (tmp_path / "pass.json").write_bytes(rubbish)

    assert Drafts(tmp_path).read("pass") == {}


def test_nothing_is_written_when_nothing_changed(tmp_path: Path) -> None:
    """A page that is only looked at costs no writing."""
    Drafts(tmp_path).keep("pass", {})

    assert list(tmp_path.iterdir()) == []


def test_answer_can_be_changed_without_changing_the_draft(tmp_path: Path) -> None:
    """What is read is the reader's own."""
    drafts = Drafts(tmp_path)
    drafts.keep("pass", {"typed": "8"})
    drafts.read("pass")["typed"] = "9"

    assert drafts.read("pass") == {"typed": "8"}


def test_full_disk_is_told_once_until_it_works_again(tmp_path: Path) -> None:
    """A folder that can't be made stands for a storage that refuses."""
    blocked = tmp_path / "drafts"
    blocked.write_text("a file where the folder should be", encoding="utf-8")
    told: list[str] = []
    drafts = Drafts(blocked, told.append)
    drafts.keep("pass", {"typed": "8"})
    drafts.keep("pass", {"typed": "8-1"})
    assert len(told) == 1
    assert drafts.read("pass") == {"typed": "8-1"}
    blocked.unlink()
    drafts.keep("pass", {"typed": "8-1/2"})
    blocked.joinpath("pass.json").unlink()
    blocked.rmdir()
    blocked.touch()
    drafts.keep("pass", {"typed": "9"})

    assert len(told) == 2
