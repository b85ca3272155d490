"""A field that is added to the pass is declared once, and shows wherever a pass is shown.

The packages are copied, the field is written into the copy's body, and processes of the copy
do the rest: what a developer would do is done, and every output is looked at.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest

from tests.house.field_outputs import forgotten
from tests.house.tree import PACKAGES, ROOT
from tests.in_full import IN_FULL
from tests.sync.papers.pdf_reading import text_of

PARTS = (*PACKAGES, "tests", *(f"fixtures/{one}" for one in ("bodies", "house", "plans", "schema")))
BODY = Path("models/entries/bodies/passes.py")
SPANISH = Path("crewapp/words/locale/es_slits.json")
SCHEMA = Path("fixtures/schema/entries.schema.json")
BODIES = Path("fixtures/bodies/pass")
FROZEN = BODIES / f"1.{len(list((ROOT / BODIES).glob('1.*.json'))) + 1}.json"
"""The frozen body that comes next."""
BARE = '    blade: str = Field(default="", max_length=80, description="blade it was cut with")\n'
MARKED = """    blade: Annotated[
        str,
        Shows(
            label="Blade",
            quantity=Quantity.NAME,
            column="blade",
            line="blade {value}",
            said="blade {value}",
            asks="Which blade?",
        ),
    ] = Field(default="", max_length=80, description="blade it was cut with")
"""
WORDS = {"Blade": "Cuchilla", "Which blade?": "¿Qué cuchilla?", "blade {value}": "cuchilla {value}"}
VALUE = "carbide 7"


def copied(folder: Path) -> Path:
    """The program as it is, in a folder of its own."""
    for part in PARTS:
        skip = shutil.ignore_patterns("__pycache__")
        shutil.copytree(ROOT / part, folder / part, ignore=skip)
    return folder


def add_field(program: Path, field: str) -> None:
    """Write a field into the body of the pass, before its note."""
    path = program / BODY
    text = path.read_text("utf-8")
    start = text.index("class PassCut")
    note = text.index("    note:", start)
    text = text[:note] + field + text[note:]
    text = text[:start] + text[start:].replace("frozenset({", 'frozenset({"blade", ', 1)
    path.write_text(text, encoding="utf-8")


def run(program: Path, *command: str) -> str:
    """Run Python over a copy of the program; return what it printed."""
    done = subprocess.run(
        [sys.executable, *command],
        env={**os.environ, "PYTHONPATH": str(program)},
        cwd=program,
        text=True,
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def digests(program: Path) -> dict[Path, str]:
    """The digest of every file of a copy."""
    files = (path for path in program.rglob("*") if path.is_file() and path.suffix != ".pyc")
    return {
        path.relative_to(program): hashlib.sha256(path.read_bytes()).hexdigest() for path in files
    }


@pytest.fixture(scope="module")
def program(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, set[Path]]:
    """The program with the field added as DEVELOPERS.md says, and the files that it took."""
    program = copied(tmp_path_factory.mktemp("program"))
    before = digests(program)
    add_field(program, MARKED)
    words = json.loads((program / SPANISH).read_text("utf-8")) | WORDS
    text = json.dumps(dict(sorted(words.items())), ensure_ascii=False, indent=2)
    (program / SPANISH).write_text(text + "\n", encoding="utf-8")
    (program / SCHEMA).write_text(run(program, "-m", "crewapp", "schema"), encoding="utf-8")
    run(program, "-m", "tests.house.keep_bodies")
    if IN_FULL:  # it makes the demo anew
        run(program, "-m", "tests.house.keep_bytes")
    after = digests(program)
    return program, {path for path in {*before, *after} if before.get(path) != after.get(path)}


@pytest.fixture(scope="module")
def shown(
    program: tuple[Path, set[Path]], tmp_path_factory: pytest.TempPathFactory
) -> tuple[dict[str, object], Path]:
    """What every output says of the field, and the folder with the day's papers."""
    folder = tmp_path_factory.mktemp("shown")
    script = "tests/house/field_outputs.py"
    return json.loads(run(program[0], script, str(folder), "blade", "blade", VALUE)), folder


def test_it_takes_four_files(program: tuple[Path, set[Path]]) -> None:
    """Body, Spanish, and two that commands write: the schema and the entry kept for ever.

    In full the digests of the demo's files and answers are kept anew too: none changes.
    """
    assert program[1] == {BODY, SPANISH, SCHEMA, FROZEN}


def test_nothing_is_forgotten(program: tuple[Path, set[Path]]) -> None:
    """Neither in the program as it is, nor once a field was added as it should be."""
    assert forgotten() == []
    assert json.loads(run(program[0], "tests/house/field_outputs.py", "forgotten")) == []


@pytest.mark.parametrize(
    ("field", "missing"),
    [
        (BARE, ["schema", "frozen body of pass", "sheet, CSV, notes: how pass.blade shows"]),
        (MARKED, ["schema", "frozen body of pass", *(f"Spanish: {text}" for text in WORDS)]),
    ],
    ids=["bare", "marked"],
)
def test_what_was_forgotten_is_named(tmp_path: Path, field: str, missing: list[str]) -> None:
    """A field that stands in the body alone lacks its schema, kept entry, words or columns."""
    program = copied(tmp_path / "program")
    add_field(program, field)

    told = json.loads(run(program, "tests/house/field_outputs.py", "forgotten"))

    assert [one.split(":")[0] if one.startswith("schema") else one for one in told] == missing


@pytest.mark.parametrize(
    ("output", "says"),
    [
        ("noted", VALUE),
        ("tapped", VALUE),
        ("sql", VALUE),
        ("question", ["Blade", "Which blade?"]),
        ("struck", f"G7-02: 32.8 ft on S02, blade {VALUE}"),
        ("line", f"pass G7-01, lines S01, 40.0 ft, blade {VALUE}"),
        ("linea", f"pasada G7-01, líneas S01, 40.0 ft, cuchilla {VALUE}"),
        ("schema", True),
    ],
)
def test_it_shows(shown: tuple[dict[str, object], Path], output: str, says: object) -> None:
    """By notes, by the page's question, in the text on glass and paper, in SQL, in the schema."""
    assert shown[0][output] == says


def paper(folder: Path, suffix: str) -> Path:
    """The day's paper of a format."""
    (found,) = folder.glob(f"*.{suffix}")
    return found


def test_it_stands_on_every_paper(shown: tuple[dict[str, object], Path]) -> None:
    """In the table of passes of the CSV and the workbook, and printed beside the pass."""
    rows = list(csv.DictReader(io.StringIO(paper(shown[1], "csv").read_text("utf-8-sig"))))
    cells = [row["text"] for row in rows if (row["section"], row["column"]) == ("passes", "blade")]
    book = openpyxl.load_workbook(paper(shown[1], "xlsx"))
    head, first = list(book["passes"].iter_rows(values_only=True))[:2]
    printed = " ".join(text_of(paper(shown[1], "pdf")).split())

    assert cells == [VALUE]
    assert dict(zip(head, first, strict=True))["blade"] == VALUE
    assert f"blade {VALUE}" in printed
