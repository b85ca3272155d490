"""The wheel and an environment with it, made once for all tests that only use them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.wheel.installation import Installation, build, install


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The sdist of this checkout, and the wheel made of it."""
    return build(tmp_path_factory.mktemp("built"))


@pytest.fixture(scope="session")
def wheel(built: tuple[Path, Path]) -> Path:
    """The wheel file, as it is given to people."""
    return built[1]


@pytest.fixture(scope="session")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Installation:
    """The wheel in an environment of its own; nothing of it may be changed."""
    return install(wheel, tmp_path_factory.mktemp("installed"))
