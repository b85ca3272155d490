"""A merge cut anywhere, at the client or at the server, and run once more: every row once."""

from __future__ import annotations

import signal
import subprocess
import sys
from collections.abc import Iterator

import pytest

from models.book.row import Row
from sync.office.database import Office
from sync.office.errors import OfficeFailedError
from tests.house.tree import ROOT
from tests.sync.office.crasher import TABLETS, tablet_notes, take_all
from tests.sync.office.postgres import Postgres, postgres
from tests.sync.office.written import KEY, by_turn

COUNT = 200


def all_rows() -> list[Row]:
    """Everything that is to be there in the end."""
    return by_turn([row for n in range(TABLETS) for row in tablet_notes(n, COUNT)])


def begun(where: str) -> subprocess.Popen[str]:
    """Start a merge in a program of its own."""
    words = [sys.executable, "-m", "tests.sync.office.crasher", where, str(COUNT)]
    return subprocess.Popen(
        words, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


def told_up_to(program: subprocess.Popen[str], rows: int) -> int:
    """Wait until a program says that so many rows are in; return how many it said."""
    assert program.stdout is not None
    for line in program.stdout:
        if int(line) >= rows:
            return int(line)
    raise AssertionError(program.communicate()[1])


def test_the_client_is_killed(where: str) -> None:
    """Killed at two places, it loses nothing it had confirmed; one more run brings the rest."""
    for place in (50, 500):
        with begun(where) as program:
            told = told_up_to(program, place)
            program.kill()
        with Office.open(where) as office:
            assert office.jobs()[0].entries >= told
            assert len(list(office.source_of(KEY).rows())) == office.jobs()[0].entries

    take_all(where, COUNT)

    with Office.open(where) as office:
        assert list(office.source_of(KEY).rows()) == all_rows()


@pytest.fixture(scope="module")
def own_server() -> Iterator[Postgres]:
    """A PostgreSQL for these tests to stop."""
    with postgres() as running:
        yield running


def test_the_server_drops_everything(own_server: Postgres) -> None:
    """Stopped in the middle as by a crash, it has all it confirmed; the client says a sentence."""
    where = own_server.new_database()
    for place in (100, 500):
        with begun(where) as program:
            told = told_up_to(program, place)
            own_server.stop(signal.SIGQUIT)
            said = program.communicate()[1]
        assert "Run it again" in said.splitlines()[-1]
        own_server.start()
        with Office.open(where) as office:
            assert office.jobs()[0].entries >= told

    take_all(where, COUNT)

    with Office.open(where) as office:
        assert list(office.source_of(KEY).rows()) == all_rows()


def test_a_stopped_server_in_hand(own_server: Postgres) -> None:
    """A connection that died says so once in a sentence, and works again when the server does."""
    with Office.open(own_server.new_database(), make=True) as office:
        rows = tablet_notes(0, 10)
        office.source_of(KEY).import_rows(rows[:5])
        own_server.stop(signal.SIGQUIT)
        with pytest.raises(OfficeFailedError, match="nothing comes in twice"):
            office.source_of(KEY)
        own_server.start()

        assert office.source_of(KEY).import_rows(rows) == 5
