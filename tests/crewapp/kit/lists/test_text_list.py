"""Facts of any length are all reached, none cut off; paths are told as they are."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from crewapp.kit.lists.fact_list import Fact
from tests.kivy_env import PROFILES

if TYPE_CHECKING:
    from tests.uidriver import UI

FACTS = [
    Fact(f"Fact {n}", "why it is so, " * (n % 7), f"{n}", "ok" if n % 3 else "") for n in range(23)
]


def told(ui: UI, **kwargs: Any) -> Any:
    """Show the facts over the whole glass."""
    from crewapp.kit.lists.text_list import FactList

    shown = FactList(**kwargs)
    shown.show_facts(FACTS)
    return ui.show(shown)


@pytest.mark.parametrize("profile", sorted(PROFILES))
def test_page_keys_reach_every_fact_once(ui: UI, profile: str) -> None:
    """Down to the last, each fact seen whole on exactly one page; up again to the first."""
    from crewapp.kit.lists.text_list import FactRow

    ui.hold(PROFILES[profile])
    shown, seen = told(ui), list[str]()
    while True:
        rows = [w for w in shown.children if isinstance(w, FactRow)][::-1]
        assert all(row.y >= shown.y - 1 and row.top <= shown.top + 1 for row in rows)
        assert not any(part.is_cut for row in rows for part in row.children)
        seen += [row.fact.title for row in rows]
        if shown.down.disabled:
            break
        ui.tap(shown.down)
    assert seen == [fact.title for fact in FACTS]
    while not shown.up.disabled:
        ui.tap(shown.up)

    assert shown.first == 0


def test_few_facts_have_no_page_keys(ui: UI) -> None:
    """What fits takes no room for keys; a key of one's own stays."""
    from crewapp.kit.keys.touchable import TapKey
    from crewapp.kit.lists.text_list import FactList

    alone, key = FactList(), TapKey(text="Sand")
    alone.show_facts(FACTS[:2])
    ui.show(alone)
    assert alone.up.parent is None
    ui.close()
    beside = FactList(foot=key)
    beside.show_facts(FACTS[:2])
    ui.show(beside)

    assert (beside.up.parent, key.parent) == (None, beside)


def test_path_is_broken_after_slashes_alone() -> None:
    """Each line fits, and together they are the path: no blank, no letter changed."""
    from crewapp.kit.text.path_text import break_paths

    path = "/home/crew/tablet-one/asbuilt/larkfield-first-stage"
    text = break_paths(f"12 files in {path}", lambda line: len(line) <= 20)

    assert text.replace("\n", "") == f"12 files in {path}"
    assert all(len(line) <= 20 or "/" not in line[:-1] for line in text.split("\n")[1:])
    assert " " not in text.split("files in ")[1]


def test_path_that_fits_stays_on_its_line() -> None:
    """Words without a path are left to be wrapped as ever."""
    from crewapp.kit.text.path_text import break_paths

    assert break_paths("3 files in ~/sheets", lambda line: len(line) <= 20) == "3 files in ~/sheets"
    assert break_paths("averylongwordwithoutany", lambda line: len(line) <= 5) == (
        "averylongwordwithoutany"
    )
