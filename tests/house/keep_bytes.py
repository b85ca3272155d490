"""Digests of what others read or keep: the demo's files and the commands' JSON answers.

``python -m tests.house.keep_bytes`` writes them anew to fixtures/house/bytes.json. Do so only
when a change of what is printed or stored is meant, and say in the commit what changed. What a
new field of an entry changes by itself is held elsewhere: the schema by fixtures/schema, the
columns of notes by fixtures/notes/columns.json, which they may outgrow.
"""

from __future__ import annotations

import contextlib
import hashlib
import io
import json
import os
import shlex
import shutil
import sqlite3
import sys
import tempfile
import zlib
from collections.abc import Iterator
from importlib.metadata import version
from pathlib import Path

from crewapp.cli.main import main
from crewapp.demo.folder import AS_BUILT, PLAN, SHEETS
from tests.house.tree import ROOT

KEPT = ROOT / "fixtures" / "house" / "bytes.json"
LIBRARIES = ("fpdf2", "fonttools", "uharfbuzz", "pillow", "XlsxWriter", "ezdxf", "shapely")

# The clock, chance and paths have no part in these answers. Each set starts from the demo's
# folder as it was made; what one line writes, the next one reads.
LINES = (
    ("levels papers/levels.csv",),
    ("levels papers/levels.csv --allow 0.01/setup --adjust no",),
    ("check larkfield.book --all", "check larkfield-finished.book --all"),
    ("verify larkfield.book", "verify larkfield-finished.book"),
    ("progress larkfield.book", "progress larkfield-finished.book"),
    ("log larkfield.book papers/notes.csv", "check larkfield.book"),
    ('sieve larkfield.book papers/sieve.csv --material "slit sand"',),
    ("sheet larkfield.book --day 2026-05-13",),
    ("asbuilt larkfield-finished.book --out record --paper tabloid",),
    (
        "plan show larkfield.book",
        "plan gates larkfield.book --surface F2",
        "plan compare larkfield.book --surface G5",
        "plan compare larkfield.book --surface F2 --lines piped",
        "plan takeoff larkfield.book --out takeoff",
        "plan takeoff larkfield.book --with swell=30%",
        "plan stakeout larkfield.book --setup L3 --out morning",
        "plan layout larkfield.book --surface F2 --sand-slits 24in --dry-run",
    ),
    (
        "plan import my.book papers/plan.json",
        "plan layout my.book --surface G5 --sand-slits 16in --piped-slits 4ft",
        "plan import my.book papers/g9.csv --surface G9 --name G9 --use green",
    ),
    (
        "handover make larkfield.book --out larkfield.crew",
        "handover take larkfield.crew --book taken.book",
    ),
    (
        "office take --files larkfield.book",
        "office jobs",
        "office report --by crew --html report.html",
        "office report --from 2026-05-12 --to 2026-05-13",
        "office sheet --job larkfield --day 2026-05-13",
        "office rebuild",
    ),
)

Digests = dict[str, str]


def made_with() -> dict[str, str]:
    """Return the versions of what decides the bytes of a file beside the program itself."""
    return {
        "python": ".".join(map(str, sys.version_info[:2])),
        "sqlite": sqlite3.sqlite_version,
        "zlib": zlib.ZLIB_RUNTIME_VERSION,
        **{name: version(name) for name in LIBRARIES},
    }


def digest(content: bytes) -> str:
    """Return the SHA-256 of some bytes."""
    return hashlib.sha256(content).hexdigest()


@contextlib.contextmanager
def _standing_in(folder: Path, home: Path) -> Iterator[None]:
    """Work in a folder, with a tablet of its own; both are put back."""
    before, tablet = Path.cwd(), os.environ.get("CREWAPP_HOME")
    os.chdir(folder)
    os.environ["CREWAPP_HOME"] = str(home)
    try:
        yield
    finally:
        os.chdir(before)
        if tablet is None:
            del os.environ["CREWAPP_HOME"]
        else:
            os.environ["CREWAPP_HOME"] = tablet


def answer(line: str) -> str:
    """Run one line of the command line with ``--json``; return its exit code and its answer."""
    printed, faults = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(printed), contextlib.redirect_stderr(faults):
        code = main([*shlex.split(line), "--json"])
    assert printed.getvalue(), f"{line} printed nothing: {faults.getvalue()}"
    return f"{code}\n{printed.getvalue()}"


def digests(room: Path) -> tuple[Digests, Digests]:
    """Make the demo in an empty folder; return the digests of its files, and of all answers."""
    demo = room / "demo"
    with _standing_in(room, room / "home"):
        answers = {"demo --out demo": digest(answer("demo --out demo").encode())}
        for number, lines in enumerate(LINES):
            folder = Path(shutil.copytree(demo, room / str(number) / "demo"))
            with _standing_in(folder, room / str(number) / "home"):
                for line in lines:
                    name = line if len(lines) == 1 else f"{lines[0]} ... {line}"
                    answers[name] = digest(answer(line).encode())
    files = {
        str(path.relative_to(demo)): digest(path.read_bytes())
        for part in (SHEETS, PLAN, AS_BUILT)
        for path in sorted((demo / part).rglob("*"))
        if path.is_file()
    }
    return files, answers


def kept() -> dict[str, Digests]:
    """Return what was kept: ``made_with``, ``files`` and ``answers``."""
    found: dict[str, Digests] = json.loads(KEPT.read_text(encoding="utf-8"))
    return found


def keep() -> None:
    """Write every digest anew."""
    with tempfile.TemporaryDirectory() as room:
        files, answers = digests(Path(room))
    held = {"made_with": made_with(), "files": files, "answers": answers}
    KEPT.parent.mkdir(parents=True, exist_ok=True)
    KEPT.write_text(json.dumps(held, indent=1) + "\n", encoding="utf-8")
    print(f"{len(files)} files and {len(answers)} answers: {KEPT.relative_to(ROOT)}")


if __name__ == "__main__":
    keep()
