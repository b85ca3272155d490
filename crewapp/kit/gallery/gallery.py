"""Every widget in every state on one page, as a picture to look at.

``python -m crewapp.kit.gallery.gallery OUT.png --profile 8in --turned``
"""

from __future__ import annotations

import argparse
import os
from pathlib import Path
from typing import Any

PROFILES = {"8in": (1920, 1200, 283), "10in": (1920, 1200, 224), "10in-coarse": (1280, 800, 149)}


def settle(profile: str, is_turned: bool) -> None:
    """Choose the screen before Kivy is imported."""
    wide, high, dpi = PROFILES[profile]
    if is_turned:
        wide, high = high, wide
    os.environ.update(
        KIVY_NO_ARGS="1", KIVY_NO_CONFIG="1", KIVY_NO_FILELOG="1", KIVY_LOG_MODE="PYTHON"
    )
    os.environ.setdefault("SDL_VIDEODRIVER", "offscreen")
    os.environ.update(KIVY_DPI=str(dpi), KIVY_METRICS_DENSITY="1", KIVY_METRICS_FONTSCALE="1")
    from kivy.config import Config

    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "width", str(wide))
    Config.set("graphics", "height", str(high))


def take_picture(root: Any, path: Path) -> None:
    """Show a root widget, let it be laid out, and write what is on the glass."""
    from kivy.base import EventLoop
    from kivy.clock import Clock
    from kivy.core.window import Window

    EventLoop.ensure_window()
    if EventLoop.status != "started":
        EventLoop.start()
    Clock._max_fps = 0
    Window.clearcolor = (1, 1, 1, 1)
    Window.add_widget(root)
    for _ in range(8):
        EventLoop.idle()
    root.export_to_png(str(path))
    Window.remove_widget(root)


def main() -> None:
    """Write one picture a page beside the path given."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path)
    parser.add_argument("--profile", choices=sorted(PROFILES), default="10in-coarse")
    parser.add_argument("--turned", action="store_true", help="hold the tablet upright")
    chosen = parser.parse_args()
    settle(chosen.profile, chosen.turned)
    from crewapp.kit.gallery.pages import PAGES

    for name, make in PAGES.items():
        path = chosen.out.with_name(f"{chosen.out.stem}-{name}{chosen.out.suffix}")
        take_picture(make(), path)
        print(path)


if __name__ == "__main__":
    main()
