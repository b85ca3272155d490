"""The surroundings that Kivy is started in for tests: no screen, no user's files.

Imported before any part of Kivy. A device profile gives the size and resolution
of one tablet; it is chosen by ``CREWAPP_PROFILE`` and ``CREWAPP_TURNED``.
"""

from __future__ import annotations

import os
import tempfile
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Profile:
    """One tablet held wide: pixels across and up, and pixels an inch."""

    wide_px: int
    high_px: int
    dpi: float

    def turned(self) -> Profile:
        """Return the same tablet held upright."""
        return Profile(self.high_px, self.wide_px, self.dpi)


PROFILES = {
    "8in": Profile(1920, 1200, 283.0),
    "10in": Profile(1920, 1200, 224.0),
    "10in-coarse": Profile(1280, 800, 149.0),
}


def profile_named(name: str, is_turned: bool) -> Profile:
    """Return a profile held wide or upright."""
    profile = PROFILES[name]
    return profile.turned() if is_turned else profile


def settle() -> None:
    """Set the environment, unless Kivy was settled before."""
    os.environ.update(
        SDL_VIDEODRIVER=os.environ.get("SDL_VIDEODRIVER", "offscreen"),
        KIVY_NO_ARGS="1",
        KIVY_NO_CONFIG="1",
        KIVY_NO_ENV_CONFIG="1",
        KIVY_NO_FILELOG="1",
        KIVY_LOG_MODE="PYTHON",
        KIVY_METRICS_DENSITY="1",
        KIVY_METRICS_FONTSCALE="1",
    )
    os.environ.setdefault("KIVY_DPI", "149")
    if "KIVY_HOME" not in os.environ:
        os.environ["KIVY_HOME"] = tempfile.mkdtemp(prefix="kivy-home-")


def configure(profile: Profile) -> None:
    """Set the window's size and take real input away; before the window is made."""
    from kivy.config import Config

    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "width", str(profile.wide_px))
    Config.set("graphics", "height", str(profile.high_px))
    Config.set("kivy", "keyboard_mode", "system")
    for name, _ in Config.items("input"):
        Config.remove_option("input", name)
