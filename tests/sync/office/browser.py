"""A real browser without a window, for tests: what it made of a page, and how that looks."""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from pathlib import Path

_QUIET = (
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
    *("--disable-dev-shm-usage", "--hide-scrollbars", "--force-color-profile=srgb"),
)
SLOWEST_S = 120


def browse(page: Path, *words: str) -> str:
    """Open a page with some words more for the browser; return what it printed."""
    program = shutil.which("chromium")
    if program is None:
        raise RuntimeError("no browser is installed: bash .setup/install test")
    with tempfile.TemporaryDirectory(prefix="crewapp-browser-") as folder:
        told = [program, *_QUIET, f"--user-data-dir={folder}", *words, page.absolute().as_uri()]
        done = subprocess.run(
            told, capture_output=True, text=True, timeout=SLOWEST_S, check=True, cwd=folder
        )
    return done.stdout


def dump(page: Path) -> str:
    """Return the page as the browser understood it, its scripts run if it had any."""
    return browse(page, "--dump-dom")


def picture(page: Path, out: Path, width: int = 1200, height: int = 1400) -> None:
    """Draw the page as on a screen of some size."""
    browse(page, f"--window-size={width},{height}", f"--screenshot={out.absolute()}")


def printed(page: Path, out: Path) -> None:
    """Print the page into a PDF."""
    browse(page, "--no-pdf-header-footer", f"--print-to-pdf={out.absolute()}")
