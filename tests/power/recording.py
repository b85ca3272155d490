"""Build the recorder, run a program under it, and read back what the program did."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.power.replay import Image
from tests.power.wire import Deed, read_log

SOURCE = Path(__file__).with_name("recorder.c")
ROOT = Path(__file__).parents[2]


@dataclass(frozen=True, slots=True)
class Recording:
    """What one run did in its folder, what it printed, and the folder as the run left it."""

    deeds: list[Deed]
    printed: str
    folder: Path


@contextmanager
def quick_folder() -> Iterator[Path]:
    """Give a folder where a sync costs nothing, if there is one: only the record of it counts."""
    memory = Path("/dev/shm")
    is_usable = memory.is_dir() and os.access(memory, os.W_OK)
    with TemporaryDirectory(prefix="power-cut-", dir=memory if is_usable else None) as folder:
        yield Path(folder)


def build(folder: Path) -> Path:
    """Compile the recorder into a folder and return the library."""
    library = folder / "recorder.so"
    command = ["cc", "-std=gnu11", "-O2", "-Wall", "-Werror", "-fPIC", "-shared", "-D_GNU_SOURCE"]
    subprocess.run([*command, "-o", str(library), str(SOURCE), "-ldl", "-lpthread"], check=True)
    return library


def record(
    library: Path, folder: Path, module: str, *arguments: str, start: Image | None = None
) -> Recording:
    """Run a module with a folder as its first argument and watch what it does there.

    The folder is new, or what a power cut left.
    """
    watched = folder / "watched"
    watched.mkdir()
    if start:
        start.lay(watched)
    log = folder / "log"
    surroundings = {
        **os.environ,
        "LD_PRELOAD": str(library),
        "POWER_FOLDER": str(watched.resolve()),
        "POWER_LOG": str(log),
        "PYTHONPATH": str(ROOT),
    }
    command = [sys.executable, "-m", module, str(watched.resolve()), *arguments]
    done = subprocess.run(
        command, env=surroundings, cwd=ROOT, capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise RuntimeError(f"{module} failed:\n{done.stderr}")
    return Recording(read_log(log), done.stdout, watched)
