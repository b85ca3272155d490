"""A database for each test: a file, and one of a real PostgreSQL that the run starts and stops."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from sync.office.database import Office
from tests.sync.office.postgres import Postgres, postgres


@pytest.fixture(scope="session")
def server() -> Iterator[Postgres]:
    """One PostgreSQL for the run."""
    with postgres() as running:
        yield running


@pytest.fixture(params=["sqlite", "postgresql"])
def where(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Name of an empty database: every test that asks for it runs on both kinds."""
    if request.param == "sqlite":
        return str(tmp_path / "office.db")
    server: Postgres = request.getfixturevalue("server")
    return server.new_database()


@pytest.fixture
def office(where: str) -> Iterator[Office]:
    """A new office's database of either kind, open."""
    with Office.open(where, make=True) as made:
        yield made
