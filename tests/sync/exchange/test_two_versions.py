"""A crew whose tablets run two versions of the app: nothing is lost, and all books are alike.

Until two versions were released, the newer one is today's with fields added to the pass.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from tests.house.tree import PACKAGES, ROOT

DAYS = ("2026-05-11", "2026-05-12", "2026-05-13")
PLAN = ROOT / "fixtures" / "plans" / "small.json"
BODIES = Path("models/entries/bodies/passes.py")
ADDED = """
    driver: Words = Field(default="", description="who drove")
    gears: tuple[Label, ...] = Field(default=(), description="gears, in turn")
    is_offset: bool = Field(default=False, description="legs stood offset; lengths are of one")
"""
NEEDS = re.compile(r"    needs: .*?MappingProxyType\(\{(.*?)\}\)\n", re.S)
NEEDS_OFFSET = '"is_offset": "pass.is-offset"'
LEFT_OUT = re.compile(r"    left_out: .*?frozenset\((.*?)\)\n", re.S)
NAMES = ("driver", "gears", "is_offset")


class Tablet:
    """A tablet in a process of its own, of one version or the other."""

    def __init__(self, packages: Path, book: Path, name: str) -> None:
        script = Path(__file__).with_name("tablet_process.py")
        self.packages = packages
        self.process = subprocess.Popen(
            [sys.executable, str(script), str(book), name],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(packages)},
            cwd=book.parent,
            text=True,
        )

    def do(self, act: str, **told: Any) -> Any:
        """Tell it to do something; return what it answers."""
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.write(json.dumps({"act": act, **told}) + "\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline()
        assert answer, f"it ended at {act}"
        return json.loads(answer)

    def write_pass(self, number: int, **more: Any) -> str:
        """Log a pass; return the id of its entry."""
        name, lines = f"G7-{number:02d}", [f"S{number:02d}"]
        fields = {"pass_id": name, "surface_id": "G7", "line_ids": lines, "length_nm": 10**10}
        ids: list[str] = self.do("write", kind="pass", fields={**fields, **more})
        return ids[0]

    def close(self) -> None:
        """Let it end by itself."""
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.close()
        code = self.process.wait(timeout=30)
        self.process.stdout.close()
        assert code == 0

    def end(self) -> None:
        """End it, if it runs still."""
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()


def grown(text: str) -> str:
    """The module of the pass's body, with the fields added."""
    start, end = text.index("class PassCut"), text.index("\n\n\nclass Probe")
    body = text[start:end]
    has = LEFT_OUT.search(body)
    names = {*NAMES, *(re.findall(r'"(\w+)"', has[1]) if has else ())}
    left_out = f"    left_out: ClassVar[frozenset[str]] = frozenset({names})\n"
    needs = NEEDS.search(body)
    words = f"{needs[1]}, {NEEDS_OFFSET}" if needs else NEEDS_OFFSET
    line = f"    needs: ClassVar[Mapping[str, str]] = MappingProxyType({{{words}}})\n"
    body = NEEDS.sub("", LEFT_OUT.sub("", body))
    body = body.replace('"pass"\n', f'"pass"\n{left_out}{line}', 1)
    return text[:start] + body + ADDED + text[end:]


def newer_packages(folder: Path) -> Path:
    """The three packages as a newer version would have them."""
    for package in PACKAGES:
        skip = shutil.ignore_patterns("__pycache__")
        shutil.copytree(ROOT / package, folder / package, ignore=skip)
    path = folder / BODIES
    path.write_text(grown(path.read_text("utf-8")), encoding="utf-8")
    return folder


@dataclass(slots=True)
class Season:
    """Three days of work of an old and a new tablet, with a third that comes and goes."""

    room: Path
    newer: Path
    tablets: dict[str, Tablet] = field(default_factory=dict)
    ids: dict[str, str] = field(default_factory=dict)
    told: dict[str, dict[str, Any]] = field(default_factory=dict)

    def begin(self, name: str, packages: Path) -> Tablet:
        """Start a tablet; all but the first begin with a copy of the book, and are added."""
        folder = self.room / name
        folder.mkdir()
        if self.tablets:
            self.tablets["old"].do("copy", to=str(folder / "small.book"))
        one = self.tablets[name] = Tablet(packages, folder / "small.book", name)
        if len(self.tablets) > 1:
            self.tablets["old"].do("add", code=one.do("code"))
        return one

    def meet(self, *names: str) -> None:
        """Exchange until each has what the others wrote; nothing is set aside."""
        for name in (*names, *names):
            answer = self.tablets[name].do("sync", folder=str(self.room / "store"))
            assert answer == {"whole": True, "aside": []}, name

    def go_to(self, day: str) -> None:
        """Let it be a morning."""
        for one in self.tablets.values():
            one.do("go_to", day=day, minutes=480)

    def first_day(self) -> None:
        """Each logs a pass, and each corrects the other's."""
        (self.room / "store").mkdir()
        old = self.begin("old", ROOT)
        self.go_to(DAYS[0])
        old.do("plan", path=str(PLAN))
        new = self.begin("new", self.newer)
        self.go_to(DAYS[0])
        self.meet("old", "new")
        first = old.write_pass(1)
        second = new.write_pass(2, driver="Wren", gears=["low", "high"])
        self.meet("old", "new")
        (self.ids["by old"],) = old.do("correct", id=second, fields={"note": "wet"})
        (self.ids["by new"],) = new.do("correct", id=first, fields={"driver": "Ash"})
        self.meet("old", "new")

    def second_day(self) -> None:
        """The first is closed; a third tablet logs a pass, which the old one corrects."""
        self.go_to(DAYS[1])
        old, new = self.tablets["old"], self.tablets["new"]
        old.do("close_day", day=DAYS[0])
        third = self.begin("third", self.newer)
        self.go_to(DAYS[1])
        self.meet("old", "new", "third")
        first = third.write_pass(3, driver="Sedge")
        self.meet("third", "old", "new")
        (self.ids["again"],) = old.do("correct", id=first, fields={"run_min": 12})
        new.do("strike", id=new.write_pass(4, driver="Ash"))
        self.meet("old", "new", "third")

    def third_day(self) -> None:
        """The second is closed, and the third tablet is taken off."""
        self.go_to(DAYS[2])
        old, new = self.tablets["old"], self.tablets["new"]
        new.do("close_day", day=DAYS[1])
        self.meet("old", "new", "third")
        old.do("take_off", code=self.tablets["third"].do("code"))
        self.meet("old", "new")
        self.ids["needs"] = new.write_pass(5, is_offset=True)
        old.write_pass(6)
        self.meet("old", "new")

    def entry(self, name: str) -> dict[str, Any]:
        """An entry of the old tablet's book."""
        entries = map(json.loads, self.told["old"]["raws"])
        return next(one for one in entries if one["id"] == self.ids[name])

    def body(self, name: str) -> dict[str, Any]:
        """What an entry of the old tablet's book says."""
        found: dict[str, Any] = self.entry(name)["body"]
        return found


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Season]:
    """The three days, and what the old and the new tablet tell at their end."""
    room = tmp_path_factory.mktemp("season")
    made = Season(room, newer_packages(tmp_path_factory.mktemp("newer")))
    try:
        made.first_day()
        made.second_day()
        made.third_day()
        made.told = {name: made.tablets[name].do("tell") for name in ("old", "new")}
        for one in made.tablets.values():
            one.close()
        yield made
    finally:
        for one in made.tablets.values():
            one.end()


@pytest.mark.parametrize(
    "what", ["raws", "codes", "book_code", "heads", "on_list", "off_list", "closed"]
)
def test_both_hold_the_same(season: Season, what: str) -> None:
    """Bytes, check codes, heads, the list of tablets and the closed days are equal."""
    assert season.told["old"][what] == season.told["new"][what]
    assert season.told["old"][what]


def test_days_are_closed_and_the_third_is_off_the_list(season: Season) -> None:
    """What was done on one version stands on the other."""
    assert season.told["new"]["closed"] == list(DAYS[:2])
    assert len(season.told["old"]["off_list"]) == 1
    assert len(season.told["new"]["on_list"]) == 2


def test_nothing_of_the_new_fields_is_lost(season: Season) -> None:
    """A correction by the old tablet keeps what it can't read, and changes what it says."""
    one, again = season.body("by old"), season.body("again")

    assert (one["driver"], one["gears"], one["note"]) == ("Wren", ["low", "high"], "wet")
    assert (again["driver"], again["run_min"]) == ("Sedge", 12)
    assert season.body("by new")["driver"] == "Ash"


def test_old_sheets_have_every_pass_that_can_be_read(season: Season) -> None:
    """A field more hides no pass; one that would be misread is named as newer."""
    old, new = season.told["old"], season.told["new"]

    assert old["passes"] == {
        DAYS[0]: ["G7-01", "G7-02"],
        DAYS[1]: ["G7-03"],
        DAYS[2]: ["G7-06"],
    }
    assert new["passes"] == {**old["passes"], DAYS[2]: ["G7-05", "G7-06"]}
    assert season.entry("needs")["needs"] == ["pass.is-offset"]
    assert "written_by_newer_version" in old["flags"][DAYS[2]]
    assert "written_by_newer_version" not in new["flags"][DAYS[2]]


def test_old_sheets_say_how_many_hold_more(season: Season) -> None:
    """Those that stand are counted; the newer version shows all there is."""
    assert season.told["old"]["holding_more"] == {
        DAYS[0]: "2 entries hold more than this version shows.",
        DAYS[1]: "1 entry holds more than this version shows.",
        DAYS[2]: "",
    }
    assert set(season.told["new"]["holding_more"].values()) == {""}
