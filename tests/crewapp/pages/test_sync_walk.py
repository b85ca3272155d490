"""The Exchange page keeps to the rules of hand and eye on every tablet, held either way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.tablets import AddTablet, RevokeTablet
from crewapp.job.dispatch import do
from crewapp.pages.exchange.view import StoreJob, TransferResult
from crewapp.tablet.settings import Settings, Tablet
from tests.crewapp.pages.look_round import HOLDS
from tests.crewapp.pages.sync_driver import Crew, SyncDriver, cut_line, found_job
from tests.kivy_env import profile_named
from tests.tree_walk import faults

if TYPE_CHECKING:
    from tests.uidriver import UI

CAME = TransferResult(
    "whole", ("Entries that came: 41", "Pictures that came: 2"), 41, ("second crew",)
)
CUT = TransferResult(
    "cut",
    (
        "Cannot reach the store /media/stick: its folder is not there. Nothing is lost: what was "
        "not sent waits on this tablet. Try again when the store is there.",
        "What went before stands. Exchange again: it goes on where it was cut.",
    ),
)
LESS = TransferResult("less", ("It holds 12 of the 41 files of this job fewer than last time.",))
HOST = TransferResult(
    "host", ("office.example.org", "SHA256:Yx3h1m9QmYb5e1kQq0cJt1v2x7fWz8mC3Lk2PpQ9aR8")
)
MADE = TransferResult(
    "made", ("0.4 MB", "12 pictures in it"), path="/home/crew/handover/green-05-11.crew"
)
FOUND = TransferResult("found", jobs=(StoreJob("a-0123456789abcdef", "north-lawn", 41, 8_200_000),))


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job of four tablets: one let in, one taken off, one that nobody knows."""
    root = tmp_path_factory.mktemp("crew")
    (root / "stick").mkdir()
    found_job(root / "first")
    crew = Crew(root, root / "stick")
    crew.exchange("first")
    codes = {name: crew.join(name) for name in ("second", "spare", "stranger")}
    crew.exchange("first", *(adding(codes[name], name) for name in ("second", "spare")))
    for name in codes:
        crew.exchange(name, cut_line("S03"))
    crew.exchange("first", lambda job: do(job, RevokeTablet(code=codes["spare"], why="lost")))
    (root / "first" / "inbox").mkdir()
    (root / "first" / "inbox" / "hollow-green-2026-05-10.crew").touch()
    return root


def adding(code: str, name: str) -> Callable[..., object]:
    """Add a tablet."""
    return lambda job: do(job, AddTablet(code=code, name=f"{name} crew"))


@pytest.fixture(params=HOLDS, ids=lambda hold: "-".join(str(part) for part in hold))
def driver(ui: UI, root: Path, request: pytest.FixtureRequest) -> Iterator[SyncDriver]:
    """The Exchange page on a tablet held one way, in one language."""
    from crewapp.words.translate import set_language

    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    (book,) = (root / "first" / "books").glob("*.book")
    opened = SyncDriver(ui, root / "first", root / "stick", book)
    opened.app.tablet.keep_settings(
        Settings(author="Wren", language=language, store=str(root / "stick"))
    )
    set_language(language)
    opened.shell.reword()
    opened.settle()
    yield opened
    opened.close()
    set_language("en")
    Tablet(root / "first").drafts.joinpath("sync.json").unlink(missing_ok=True)


def lay_out() -> None:
    """Let the glass be laid out; it is measured and not looked at, so nothing is drawn."""
    from kivy.clock import Clock
    from kivy.lang import Builder

    for _ in range(3):
        Clock.tick()
        Builder.sync()
        Clock.tick_draw()


def places(driver: SyncDriver) -> list[tuple[str, str, TransferResult | None, dict[str, object]]]:
    """Return every part in every state that looks different: a name, a part, what it shows."""
    codes = {row.name: row.code for row in driver.page.view.tablets}
    s3 = {"s3": {"bucket": "turf", "endpoint": "https://s3.example"}}
    return [
        ("home", "home", CAME, {}),
        ("cut", "home", CUT, {}),
        ("less", "less", LESS, {}),
        ("host", "host", HOST, {}),
        ("aside", "aside", None, {}),
        ("where", "where", None, {}),
        ("s3", "where", None, {"kind": "s3", "store": s3}),
        ("folders", "folders", None, {"kind": "folder"}),
        ("field", "field", None, {"kind": "sftp", "store_field": "host"}),
        ("tablets", "tablets", None, {}),
        ("named", "named", None, {"code": codes["second crew"], "called": "second crew"}),
        ("tablet", "tablet", None, {"code": codes["second crew"]}),
        ("off", "tablet", None, {"code": codes["spare crew"]}),
        ("hand", "hand", None, {}),
        ("made", "hand", MADE, {}),
        ("take", "take", None, {}),
        ("join", "join", FOUND, {}),
    ]


def test_every_part_fits_the_hand(driver: SyncDriver) -> None:
    """Nothing is too small, too near, cut off or off the glass, in any part; nor while busy."""
    wrong = []
    page = driver.page
    for name, part, ended, draft in places(driver):
        page.runner.ended = ended
        page.keep_draft(part=part, **draft)
        page.fill()
        lay_out()
        assert page.part_name() == part
        wrong += [f"{name}: {fault}" for fault in faults(driver.shell)]
    page.runner.is_busy, page.runner.words, page.runner.ended = True, "Fetching, 3 of 12", None
    page.turn_to("home")
    lay_out()
    wrong += [f"busy: {fault}" for fault in faults(driver.shell)]
    page.runner.is_busy = False
    page.turn_to("tablets")
    page.tablets.begin()
    lay_out()
    wrong += [f"code: {fault}" for fault in faults(page.tablets.sheet)]

    assert "\n".join(wrong) == ""
