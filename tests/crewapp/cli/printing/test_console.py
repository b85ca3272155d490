"""Printing goes on where the console has few letters, its reader has gone or its disk is full."""

from __future__ import annotations

import json
import logging
import os
import subprocess
import sys
from pathlib import Path

import pytest

from crewapp.cli.main import main
from crewapp.cli.printing.console import log_no_interrupts, plain_letters
from crewapp.commands.day import LogNote
from crewapp.commands.passes import LogPass
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from tests.house.tree import ROOT

SAID = "3 yd³ at 9½ in, “señor”, 字 \N{RIGHT-TO-LEFT OVERRIDE}x"
NARROW = ["ascii", "cp437", "cp1252", "utf-8"]


def crewapp(
    *words: object, letters: str = "utf-8", out: int = subprocess.PIPE
) -> tuple[int, bytes]:
    """Run a command as a process whose console has the letters named; return code and output."""
    surroundings = {**os.environ, "PYTHONIOENCODING": letters, "LANG": "C", "PYTHONUTF8": "0"}
    done = subprocess.run(
        [sys.executable, "-m", "crewapp", *(str(word) for word in words)],
        env={**surroundings, "PYTHONPATH": str(ROOT)},
        stdout=out,
        stderr=subprocess.PIPE,
        check=False,
    )
    assert b"Traceback" not in done.stderr
    assert b"Exception ignored" not in done.stderr
    return done.returncode, done.stdout or done.stderr


@pytest.fixture
def book(job: OpenJob) -> Path:
    """A book whose job has a name that few consoles can show."""
    from crewapp.handlers.plan.plan_entries import set_up_all
    from crewapp.imports.plan.plan_file import read_plan

    told = {"job": {"job_id": "small", "name": SAID, "unit_system": "us", "zone": "UTC"}}
    set_up_all(job, read_plan(Path("again.json"), json.dumps(told)))
    do(job, LogNote(text=SAID))
    job.close()
    return job.book.path


@pytest.mark.parametrize("letters", NARROW)
def test_what_the_console_can_not_show_is_written_with_what_it_has(
    book: Path, letters: str
) -> None:
    """No letter stops a command: cubic yards come out as yd3 where there is no raised three."""
    code, out = crewapp("check", book, letters=letters)
    told = out.decode(letters)

    assert code == 0
    assert "3 yd" in told
    assert "\\" not in told


@pytest.mark.parametrize("letters", NARROW)
def test_json_means_the_same_on_every_console(book: Path, letters: str) -> None:
    """What is printed for machines is read back letter by letter, whatever carried it."""
    code, out = crewapp("check", book, "--json", letters=letters)

    assert code == 0
    assert json.loads(out.decode(letters))["job"] == SAID


def test_names_of_others_steer_no_terminal(
    job: OpenJob, capsys: pytest.CaptureFixture[str]
) -> None:
    """What a terminal would obey is named; what a machine reads is as it was written."""
    evil = "\x1b[2J\x9b\x7f\N{RIGHT-TO-LEFT OVERRIDE}G7"
    do(
        job,
        LogPass(
            surface_id="G7", line_ids=("S01",), length_nm=10**10, length_typed="", pass_id=evil
        ),
    )
    job.close()
    main(["check", str(job.book.path)])
    shown = capsys.readouterr().out
    main(["check", str(job.book.path), "--json"])

    assert "[U+001B][2J[U+009B][U+007F][U+202E]G7" in shown
    assert not set(shown) & set("\x1b\x9b\x7f\N{RIGHT-TO-LEFT OVERRIDE}")
    assert any(evil in flag["found"] for flag in json.loads(capsys.readouterr().out)["flags"])


def test_sentence_of_an_error_is_printed_anywhere(tmp_path: Path) -> None:
    """A name that holds half a character and a letter of another script is told of as well."""
    code, err = crewapp(
        "check",
        tmp_path / os.fsdecode("gr\N{LATIN SMALL LETTER U WITH DIAERESIS}n\xff".encode("latin-1")),
        letters="ascii",
    )

    assert code == 2
    assert b"There is no book at" in err


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a disk that is always full")
def test_full_disk_under_the_output_is_said() -> None:
    """What can't be written down any more is told on the other channel, with exit code 2."""
    with open("/dev/full", "wb") as full:
        code, err = crewapp("columns", out=full.fileno())

    assert code == 2
    assert b"No space left" in err


def test_reader_that_has_gone_ends_it_quietly() -> None:
    """A pipe whose reader has seen enough is no fault of anybody."""
    reader, writer = os.pipe()
    os.close(reader)
    code, said = crewapp("schema", out=writer)
    os.close(writer)

    assert (code, said) == (0, b"")


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("yd³", "yd3"),
        ("m²", "m2"),
        ("9½", "9 1/2"),
        ("5⅛ in", "5 1/8 in"),
        ("é", "e"),
        ("Ñandú", "Nandu"),
        ("1…2", "1...2"),
        ("–", "-"),
        ("字", "?"),
        ("\udcff", "?"),
        ("\N{RIGHT-TO-LEFT OVERRIDE}", "?"),
    ],
)
def test_plain_letters_stand_for_what_was_meant(text: str, plain: str) -> None:
    """Raised figures, fractions and accents keep their sense; half a nine stays apart from it."""
    assert plain_letters(text) == plain


@pytest.mark.parametrize(("fault", "printed"), [(KeyboardInterrupt, False), (OSError, True)])
def test_libraries_log_faults_but_no_ctrl_c(
    fault: type[BaseException], printed: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    """What a library logs while it passes a Ctrl-C on is not printed; its other faults are."""
    log_no_interrupts()
    record = logging.LogRecord("pool", logging.ERROR, "", 0, "closing", None, None)
    record.exc_info = (fault, fault(), None)
    record.exc_text = ""
    assert logging.lastResort is not None

    logging.lastResort.handle(record)

    said = capsys.readouterr().err
    assert said.startswith("closing") if printed else said == ""
