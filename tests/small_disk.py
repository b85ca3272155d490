"""A small disk of our own, in memory, to be filled to the last byte."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest


@contextmanager
def small_disk(place: Path, megabytes: int) -> Iterator[Path]:
    """Mount a disk of so many MB at a new folder; skip the test where the system forbids it."""
    place.mkdir()
    if sys.platform != "linux":
        pytest.skip("needs a disk of its own: only Linux mounts one in memory")
    size = f"size={megabytes}m"
    command = ["mount", "-t", "tmpfs", "-o", size, "crewtest", str(place)]
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except FileNotFoundError:
        pytest.skip("needs a disk of its own: there is no mount command here")
    if done.returncode != 0:
        pytest.skip(f"needs a disk of its own: not allowed to mount one ({done.stderr.strip()})")
    try:
        yield place
    finally:
        subprocess.run(["umount", "-l", str(place)], check=True)
