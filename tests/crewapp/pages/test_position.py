"""A place by the tablet's position: taken, refused, missing, late; nothing ever waits for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import crewapp.device.ports
from crewapp.device.ports import PositionFix, Unavailable, find_device
from crewapp.pages.frame import position_taker
from tests.crewapp.pages.day_driver import DayDriver, hands

if TYPE_CHECKING:
    from tests.uidriver import UI

HERE = PositionFix(45.1234567, -93.6543211, 5.0)
FOUND = ("Found or hit", "Found", "old drain", "Low side", "Done")


class Receiver:
    """A locator that answers when the test says so; the port's own signatures."""

    def __init__(self, lack: Unavailable | None = None) -> None:
        self.lack = lack
        self.tell: Callable[[PositionFix], None] = lambda fix: None
        self.is_on = False

    def start(self, on_fix: Callable[[PositionFix], None]) -> Unavailable | None:
        """Begin to listen, or say why not."""
        if self.lack is None:
            self.tell, self.is_on = on_fix, True
        return self.lack

    def stop(self) -> None:
        """Stop listening."""
        self.is_on = False


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[DayDriver]:
    """A finger on the Day screen of a job in feet."""
    yield from hands(ui, tmp_path)


def carry(monkeypatch: pytest.MonkeyPatch, lack: Unavailable | None = None) -> Receiver:
    """Give the tablet a receiver."""
    receiver = Receiver(lack)
    device = replace(find_device(), locator=receiver)
    monkeypatch.setattr(crewapp.device.ports, "find_device", lambda: device)
    return receiver


def test_position_is_shown_with_its_accuracy_and_inked(
    driver: DayDriver, monkeypatch: pytest.MonkeyPatch
) -> None:
    """5 m stand as 16 ft before the key is tapped; the entry keeps degrees and nanometres."""
    receiver = carry(monkeypatch)
    driver.taps(*FOUND, "Take position")
    assert driver.seen("asking the tablet")
    receiver.tell(HERE)
    driver.settle()

    assert driver.seen("good to 16 ft")
    driver.tap("Ink it")
    met = driver.body("utility")
    assert (met.placed_by, met.placed_sd_nm) == ("position", 5 * 10**9)
    assert (met.lat_ndeg, met.lon_ndeg) == (45_123_456_700, -93_654_321_100)
    assert (met.x_nm, met.y_nm) == (None, None)
    assert not receiver.is_on


def test_the_better_of_two_positions_is_kept(
    driver: DayDriver, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A receiver settles: 30 m, then 5 m, then 12 m leaves 5 m."""
    receiver = carry(monkeypatch)
    driver.taps(*FOUND, "Take position")
    for fix in (replace(HERE, accuracy_m=30.0), HERE, replace(HERE, accuracy_m=12.0)):
        receiver.tell(fix)
        driver.settle()

    assert driver.seen("good to 16 ft")


@pytest.mark.parametrize("accuracy", [None, 0.0, -1.0, float("nan"), 1e9])
def test_accuracy_that_says_nothing_is_said_to_be_unknown(
    driver: DayDriver, monkeypatch: pytest.MonkeyPatch, accuracy: float | None
) -> None:
    """A position without a usable accuracy is kept, and never looks better than it is."""
    receiver = carry(monkeypatch)
    driver.taps(*FOUND, "Take position")
    receiver.tell(replace(HERE, accuracy_m=accuracy))
    driver.settle()

    driver.tap("Ink it")
    assert driver.body("utility").placed_sd_nm is None


@pytest.mark.parametrize("fix", [PositionFix(91.0, 0.0, 5.0), PositionFix(0.0, float("nan"), 5.0)])
def test_position_that_is_none_is_left_out(
    driver: DayDriver, monkeypatch: pytest.MonkeyPatch, fix: PositionFix
) -> None:
    """Figures of no place on the Earth are no position; the entry goes in without."""
    receiver = carry(monkeypatch)
    driver.taps(*FOUND, "Take position")
    receiver.tell(fix)
    driver.settle()

    driver.tap("Ink it")
    assert driver.body("utility").placed_by is None


def test_refused_is_said_in_a_sentence(driver: DayDriver, monkeypatch: pytest.MonkeyPatch) -> None:
    """The tablet may not or can't: the reason stands there, and the find is inked without."""
    carry(monkeypatch, Unavailable("location", "permission was not given"))
    driver.taps(*FOUND, "Take position")

    assert "permission was not given" in driver.banner
    assert driver.seen("Take position")
    driver.tap("Ink it")
    assert driver.body("utility").lat_ndeg is None


def test_no_location_is_said_and_blocks_nothing(
    driver: DayDriver, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Under trees no answer comes: that is said after a while, and the rest can be inked."""
    monkeypatch.setattr(position_taker, "WAIT_S", 0.0)
    carry(monkeypatch)
    driver.taps(*FOUND, "Take position")
    driver.settle()

    assert "No position yet." in driver.banner
    driver.tap("Ink it")
    assert driver.body("utility").lat_ndeg is None


def test_late_answer_changes_nothing_that_was_inked(
    driver: DayDriver, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A position that comes after the ink is dropped, and does not slip into the next find."""
    receiver = carry(monkeypatch)
    driver.taps(*FOUND, "Take position", "Ink it")
    receiver.tell(HERE)
    driver.settle()
    driver.taps(*FOUND)

    assert driver.body("utility").lat_ndeg is None
    assert driver.seen("Take position")


def test_outlet_is_seen_with_its_position(
    driver: DayDriver, monkeypatch: pytest.MonkeyPatch
) -> None:
    """From the ties of the as-built: how it runs, where the tablet stands."""
    receiver = carry(monkeypatch)
    driver.on("after", part="ties").taps("O1, outlet as seen", "runs slowly", "Take position")
    receiver.tell(HERE)
    driver.settle()
    driver.tap("Ink it")

    seen = driver.body("outlet_seen")
    assert (seen.outlet_id, seen.flows, seen.placed_by) == ("O1", "slow", "position")
    assert seen.placed_sd_nm == 5 * 10**9


@pytest.mark.parametrize("name", ["start", "stop"])
def test_receiver_is_like_the_port(name: str) -> None:
    """A double with other arguments would prove nothing."""
    import inspect

    real = inspect.signature(getattr(crewapp.device.ports.Locator, name)).parameters
    assert list(inspect.signature(getattr(Receiver, name)).parameters) == list(real)
