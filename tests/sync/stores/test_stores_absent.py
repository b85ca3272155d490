"""A tablet without the libraries for servers uses sticks, and says what is missing for the rest."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.tree import ROOT

# Every one of these is as good as not installed.
WITHOUT = """
import sys
for name in ("fsspec", "paramiko", "webdav4", "httpx", "s3fs", "botocore"):
    sys.modules[name] = None

from pathlib import Path
from models.errors import CrewError
from sync.stores.opening import open_store

where, home = sys.argv[1:]
try:
    with open_store(where, Path(home)) as store:
        store.write("j/a", b"sand")
        print(store.list(""))
except CrewError as error:
    print(error.code, error)
"""


def run(where: str, home: Path) -> str:
    """Use a store in a Python that lacks the libraries; return what it said."""
    done = subprocess.run(
        [sys.executable, "-c", WITHOUT, where, str(home)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


def test_folder_goes_without_them(tmp_path: Path) -> None:
    """Sticks and shares need nothing but this program."""
    assert run(str(tmp_path), tmp_path) == "[ListedFile(name='j/a', size=4)]\n"


@pytest.mark.parametrize("where", ["sftp://a@127.0.0.1/x", "davs://127.0.0.1/x", "s3://turf/x"])
def test_server_without_them_is_a_sentence(where: str, tmp_path: Path) -> None:
    """One sentence: what is missing, what goes on, what to install."""
    said = run(where, tmp_path)

    assert said.startswith(f"store.absent Cannot speak to {where} here")
    assert "the wheel file you were given once more, with [sync] or [all] behind its name" in said
