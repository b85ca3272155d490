"""Ports of the tablet itself: buzz, share a file, pick a file, know where it is.

Each ability is a port. An adapter that can't do its work here gives back
``Unavailable`` with the reason; it never raises, because plyer answers "not on
this system" in five kinds of exception. Nothing here is tried on a real tablet
by the tests: they show that the desktop is silent and that plyer is called as
plyer wants it.
"""

from __future__ import annotations

import contextlib
import io
import logging
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

from crewapp.words.translate import translate_later

LOG = logging.getLogger(__name__)
BUZZ_S = 0.03
CARD_WIDE_MM = 85.60  # a bank card, ISO/IEC 7810 ID-1 (from memory)


@dataclass(frozen=True, slots=True)
class Unavailable:
    """An ability this tablet lacks, and why."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class PositionFix:
    """Position: degrees north and east, and its stated accuracy in metres."""

    north_deg: float
    east_deg: float
    accuracy_m: float | None = None


class Vibrator(Protocol):
    """Makes a press felt."""

    def buzz(self, seconds: float = BUZZ_S) -> Unavailable | None:
        """Vibrate; None when it was done."""


class Sharer(Protocol):
    """Hands a file to another app."""

    def share(self, path: Path) -> Unavailable | None:
        """Offer the file; None when it was offered."""


class FilePicker(Protocol):
    """Lets the person choose a file; a photo is chosen the same way."""

    def pick(self, picked: Callable[[Path | None], None]) -> Unavailable | None:
        """Ask for a file and call ``picked`` with it, or with None."""


class Locator(Protocol):
    """Tells where the tablet is."""

    def start(self, on_fix: Callable[[PositionFix], None]) -> Unavailable | None:
        """Call ``on_fix`` with each position from now on."""

    def stop(self) -> None:
        """Stop listening for positions."""


def attempt(what: str, act: Callable[[], Any]) -> Unavailable | None:
    """Do something that the system may not offer; say why not instead of raising."""
    try:
        with contextlib.redirect_stderr(io.StringIO()):  # plyer prints what it lacks
            act()
    except (NotImplementedError, ImportError, AttributeError) as lack:
        return Unavailable(what, f"not on this system ({type(lack).__name__})")
    except Exception as fault:  # Java and desktop tools raise kinds of their own
        LOG.info("%s: %s", what, fault)
        return Unavailable(what, f"{type(fault).__name__}: {fault}")
    return None


def _plyer(name: str) -> Any:
    """Return one of plyer's facades; imported late, it is slow to come."""
    import plyer

    return getattr(plyer, name)


class PlyerVibrator:
    """Buzzes by plyer; stops trying once it was refused."""

    def __init__(self) -> None:
        self._refused: Unavailable | None = None

    def buzz(self, seconds: float = BUZZ_S) -> Unavailable | None:
        """Vibrate for so long."""
        if self._refused is None:
            what = translate_later("vibration")
            self._refused = attempt(what, lambda: _plyer("vibrator").vibrate(time=seconds))
        return self._refused


class PlyerFilePicker:
    """Asks by the system's own file chooser."""

    def pick(self, picked: Callable[[Path | None], None]) -> Unavailable | None:
        """Ask for one file; no answer is None."""

        def answered(chosen: list[str] | None) -> None:
            picked(Path(chosen[0]) if chosen else None)

        return attempt(
            translate_later("file choice"),
            lambda: _plyer("filechooser").open_file(on_selection=answered),
        )


class PlyerLocator:
    """Asks by plyer for positions; a position without both figures is no position."""

    def start(self, on_fix: Callable[[PositionFix], None]) -> Unavailable | None:
        """Begin to listen for positions."""

        def located(**facts: Any) -> None:
            north, east = facts.get("lat"), facts.get("lon")
            if north is not None and east is not None:
                on_fix(PositionFix(float(north), float(east), facts.get("accuracy")))

        def begin() -> None:
            gps = _plyer("gps")
            gps.configure(on_location=located)
            gps.start(minTime=1000, minDistance=1)

        return attempt(translate_later("location"), begin)

    def stop(self) -> None:
        """Stop listening for positions."""
        attempt(translate_later("location"), lambda: _plyer("gps").stop())


class NoSharer:
    """Plyer has no sharing; on a desktop the file stays in its folder."""

    def share(self, path: Path) -> Unavailable | None:
        """Say where the file is instead."""
        return Unavailable(translate_later("sharing"), f"the file is at {path}")


@dataclass(frozen=True, slots=True)
class Device:
    """Abilities of the tablet, handed to whoever needs one."""

    vibrator: Vibrator
    sharer: Sharer
    picker: FilePicker
    locator: Locator


def find_device() -> Device:
    """Return the abilities of the machine this runs on."""
    return Device(PlyerVibrator(), NoSharer(), PlyerFilePicker(), PlyerLocator())


def true_dpi(claimed_dpi: float, card_drawn_mm: float) -> float:
    """Return the screen's real resolution, from a bank card laid on it.

    ``card_drawn_mm`` is how wide, by the resolution the system claims, the
    drawn outline was when it matched the card.
    """
    return claimed_dpi * card_drawn_mm / CARD_WIDE_MM


def set_true_dpi(dpi: float) -> None:
    """Make every length in mm come out true; parts made before must be made anew."""
    from kivy.metrics import Metrics

    Metrics.dpi = dpi
