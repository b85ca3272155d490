"""A stick as shops sell them: exFAT, which folds case and knows no links."""

from __future__ import annotations

import contextlib
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.sync.stores.servers.process import server_folder

SIZE = 64 * 1024 * 1024


@contextlib.contextmanager
def exfat_stick() -> Iterator[Path]:
    """A stick, plugged in where the system lets us, and pulled out at the end."""
    with server_folder() as folder:
        image, place = folder / "image", folder / "stick"
        place.mkdir()
        with image.open("wb") as file:
            file.truncate(SIZE)
        _run("mkfs.exfat", str(image))
        try:
            device = _run("losetup", "--find", "--show", str(image))
        except subprocess.CalledProcessError as error:
            pytest.skip(f"needs a disk of its own: not allowed to make one ({error.stderr})")
        try:
            _run("mount.exfat-fuse", device, str(place))
            yield place
        finally:
            subprocess.run(["umount", "-l", str(place)], capture_output=True, check=False)
            _run("losetup", "--detach", device)


def _run(*command: str) -> str:
    """Run a program and return what it printed."""
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    return done.stdout.strip()
