"""The demo's files and the JSON answers are byte for byte what was kept.

Where a change of them is meant, ``python -m tests.house.keep_bytes`` keeps the new ones.
"""

from __future__ import annotations

import pytest

from tests.house.keep_bytes import Digests, digests, kept, made_with


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Digests, Digests]:
    """Digests of the demo's files and of the answers, made anew."""
    return digests(tmp_path_factory.mktemp("bytes"))


def changed(now: Digests, before: Digests) -> list[str]:
    """Return the names whose bytes are others, or that only one of the two has."""
    return sorted(n for n in {*now, *before} if now.get(n) != before.get(n))


def test_answers_are_as_kept(made: tuple[Digests, Digests]) -> None:
    """What commands print for programs."""
    assert changed(made[1], kept()["answers"]) == []


def test_files_are_as_kept(made: tuple[Digests, Digests]) -> None:
    """Sheets, take-off, stake-out and the as-built package of the demo.

    Their bytes also depend on the libraries that write them, in the versions of the digests.
    """
    if kept()["made_with"] != made_with():
        assert set(made[0]) == set(kept()["files"])
        pytest.skip(f"kept with {kept()['made_with']}, not with {made_with()}")
    assert changed(made[0], kept()["files"]) == []


def test_a_change_is_found() -> None:
    """One byte more, a file too many and a file too few are each named."""
    before = {"same": "1", "other": "2", "gone": "3"}

    assert changed({"same": "1", "other": "0", "new": "4"}, before) == ["gone", "new", "other"]
