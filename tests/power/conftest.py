"""The recorder, compiled once, and how many power cuts a test looks at."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.power.recording import Recording, build, quick_folder, record

Record = Callable[..., Recording]


@pytest.fixture(scope="session")
def recorder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Compile the recorder."""
    if sys.platform != "linux":
        pytest.skip("the recorder stands between a program and Linux's own calls")
    return build(tmp_path_factory.mktemp("recorder"))


@pytest.fixture
def watch(recorder: Path) -> Iterator[Record]:
    """Run a module of tests.power under the recorder, in a folder of its own."""
    with quick_folder() as folder:
        yield lambda module, *words: record(recorder, folder, f"tests.power.{module}", *words)


@pytest.fixture(scope="session")
def images() -> int:
    """Return how many power cuts to look at; CREWAPP_POWER_IMAGES asks for more, such as 600."""
    return int(os.environ.get("CREWAPP_POWER_IMAGES", "120"))
