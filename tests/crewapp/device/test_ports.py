"""What the machine lacks is said, never raised; plyer is called as plyer wants it."""

from __future__ import annotations

import inspect
from pathlib import Path
from typing import Any

import pytest

from crewapp.device import ports as device


@pytest.mark.parametrize(
    "fault", [NotImplementedError(), ImportError(), AttributeError("share"), OSError("No back-end"),
              FileNotFoundError("xrandr")]
)  # fmt: skip
def test_every_kind_of_refusal_becomes_a_reason(fault: Exception) -> None:
    """Plyer answers "not here" in five kinds of exception."""

    def act() -> None:
        raise fault

    answer = device.attempt("location", act)

    assert isinstance(answer, device.Unavailable)
    assert type(fault).__name__ in answer.why


@pytest.mark.filterwarnings("ignore::DeprecationWarning")  # plyer's Linux parts use old calls
def test_desktop_is_silent(capfd: pytest.CaptureFixture[str]) -> None:
    """The real plyer on this machine gives reasons, no exception and no noise."""
    here = device.find_device()

    assert isinstance(here.vibrator.buzz(), device.Unavailable)
    assert isinstance(here.locator.start(print), device.Unavailable)
    assert isinstance(here.sharer.share(Path("a.pdf")), device.Unavailable)
    assert "Traceback" not in capfd.readouterr().err


class Gps:
    """Records what it is asked, with the real facade's own signatures."""

    def __init__(self) -> None:
        self.calls: list[tuple[str, Any]] = []

    def configure(self, on_location: Any, on_status: Any = None) -> None:
        """Keep who is to be told."""
        self.calls.append(("configure", on_location))

    def start(self, minTime: int = 1000, minDistance: int = 1) -> None:  # noqa: N803 # plyer's
        """Note the start."""
        self.calls.append(("start", (minTime, minDistance)))


def test_position_is_handed_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """A position with both figures arrives; half a position does not."""
    gps, fixes = Gps(), list[device.PositionFix]()
    monkeypatch.setattr(device, "_plyer", lambda name: gps)

    assert device.PlyerLocator().start(fixes.append) is None
    told = gps.calls[0][1]
    told(lat=51.5, lon=-0.1, accuracy=4.0)
    told(lat=51.5)

    assert fixes == [device.PositionFix(51.5, -0.1, 4.0)]


@pytest.mark.parametrize("name", ["configure", "start"])
def test_double_is_like_the_real_facade(name: str) -> None:
    """A double with other arguments would prove nothing."""
    from plyer.facades import GPS

    real = list(inspect.signature(getattr(GPS, name)).parameters)
    assert list(inspect.signature(getattr(Gps, name)).parameters) == real


def test_plyer_still_has_no_sharing() -> None:
    """Fails on the day it has: then an adapter can be written."""
    import plyer

    assert not hasattr(plyer, "share")


def test_card_on_the_glass_gives_the_true_resolution() -> None:
    """A card 85.6 mm wide that was drawn as 80 mm: the screen is 80/85.6 of its claim."""
    assert device.true_dpi(160.0, 80.0) == pytest.approx(149.53, abs=0.01)
