"""Settles Kivy's surroundings before anything imports it, and gives the ``ui``."""

from __future__ import annotations

import fcntl
import gc
import os
import signal
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest
from hypothesis import settings

from tests import fast
from tests.kivy_env import PROFILES, configure, settle

settle()
gc.disable()  # until all is collected: what is made until then stays
if "CI" not in os.environ:  # there hypothesis has a profile of its own
    settings.register_profile("unhurried", deadline=None)  # no test measures time
    settings.load_profile("unhurried")

if TYPE_CHECKING:
    from tests.uidriver import UI


LONG: Final = (
    "tests/readme",
    "tests/wheel",
    "tests/crewapp/test_stopping",
    "tests/house/test_poison",
    "tests/crewapp/cli",
    "tests/crewapp/pages",
)
"""Begin with these: a file that takes minutes and comes last keeps one core alone at work."""


YOUNG, YOUNG_MOST, ROUNDS = 20_000, 1_000_000, [0]


def pytest_ignore_collect(collection_path: Path) -> bool | None:
    """In the fast tier leave out what it does not take, before it is imported."""
    return True if fast.IS_FAST and not fast.is_fast(collection_path) else None


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put what takes longest first; of the rest none is moved."""

    def turn(item: pytest.Item) -> int:
        names = (turn for turn, name in enumerate(LONG) if item.nodeid.startswith(name))
        return next(names, len(LONG))

    items.sort(key=turn)


def pytest_collection_finish() -> None:
    """Spare the garbage collector what stays to the end; it looks round between tests."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(YOUNG_MOST, 4, 4)
    gc.enable()


def pytest_runtest_logfinish() -> None:
    """Collect what a test leaves while it is young, and only now and then what is older.

    A page leaves a hundred thousand objects that hold each other, all dead once its test is over:
    looked at earlier they live, and are looked at again and again.
    """
    if gc.get_count()[0] > YOUNG:
        ROUNDS[0] += 1
        gc.collect(2 if ROUNDS[0] % 64 == 0 else 1 if ROUNDS[0] % 4 == 0 else 0)


@pytest.fixture(autouse=True)
def _ctrl_c() -> Iterator[None]:
    """Every test begins with Ctrl-C as Python has it, however the run was started, and so ends.

    The command line leaves it to the system where it was stopped: a test that presses it
    afterwards in the same process would end all.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The invented job as it is handed out, made once for all processes of a run: copy, then write.

    Read only in effect: a test that writes into it spoils it for the others.
    """
    from crewapp.cli.demo import make_demo

    shared = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    folder = shared / "demo-for-all" / "demo"
    with (shared / "demo-for-all.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not folder.exists():
            make_demo(folder, quiet=True)  # whole, or not there
    return folder


@pytest.fixture(scope="session")
def _window() -> UI:
    """One window for the whole run; Kivy can have no second."""
    configure(PROFILES["10in-coarse"])
    from tests.uidriver import UI

    return UI()


@pytest.fixture
def ui(_window: UI) -> Iterator[UI]:
    """A clean glass: a 10 inch tablet held wide until ``ui.hold`` says otherwise."""
    _window.hold(PROFILES["10in-coarse"])
    yield _window
    _window.close()
