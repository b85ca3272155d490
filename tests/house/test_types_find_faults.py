"""The type checker finds a field that is not there: in a command, a page, a sheet, an entry."""

from __future__ import annotations

import re
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

from tests.house.tree import ROOT

FAULTS = """
from crewapp.commands.passes import LogProbe
from crewapp.job.open_job import OpenJob
from crewapp.pages.frame.worker import JobWorker
from crewapp.pages.grade.question_fields import SetupQuestion
from crewapp.pages.passes.view import PassView, ShowPass
from models.entries.bodies.passes import PassCut
from models.entries.kind_names import PASS, PROBE
from models.state.job_state import JobState
from sync.papers.day.facts.slits import PassLine


def command() -> LogProbe:
    return LogProbe(  # fault: "depht_nm" for "LogProbe"
        pass_id="G7-01", line_id="S01", along_nm=0, depht_nm=1, depth_typed="9"
    )


def count(typed: str) -> LogProbe:
    one = LogProbe(pass_id="", line_id="", along_nm=0, depth_nm=typed, depth_typed="")  # fault: int
    return one


def page(view: PassView) -> str:
    return view.surfaec_id  # fault: "surfaec_id"


def asked(worker: JobWorker) -> None:
    def show(view: PassView) -> None:
        print(view.macine_id)  # fault: "macine_id"

    worker.ask(ShowPass(surface="G7"), show, print)  # fault: "surface" for "ShowPass"


def answered_by_another(worker: JobWorker) -> None:
    def show(view: int) -> None:
        print(view)

    worker.ask(ShowPass(), show, print)  # fault: "show"|Callable


def question() -> SetupQuestion:
    return SetupQuestion("bakcsight")  # fault: "SetupQuestion"


def sheet(line: PassLine) -> object:
    return line.lenght_nm  # fault: "lenght_nm"


def body() -> PassCut:
    return PassCut(  # fault: "lenght_nm"
        pass_id="G7-01", surface_id="G7", line_ids=("S01",), length_nm=1, lenght_nm=1
    )


def state(state: JobState) -> int:
    last = state.latest(PASS, "G7-01")
    depths = [probe.body.deep_nm for probe in state.current(PROBE, "G7-01")]  # fault: "deep_nm"
    return len(depths) + (last.lenght_nm if last else 0)  # fault: "lenght_nm"
"""


def test_each_fault_is_found_and_nothing_else(tmp_path: Path) -> None:
    """Each wrong use of the typed core gives an error on its line, and no other line has one."""
    path = tmp_path / "faults.py"
    path.write_text(FAULTS, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "mypy", "--config-file", ROOT / "pyproject.toml", path],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    errors: dict[int, str] = defaultdict(str)
    for number, text in re.findall(r"faults\.py:(\d+): error: (.*)", done.stdout):
        errors[int(number)] += f"{text}; "
    planted = {
        number: line.partition("# fault: ")[2]
        for number, line in enumerate(FAULTS.splitlines(), start=1)
        if "# fault: " in line
    }

    assert errors.keys() == planted.keys(), done.stdout + done.stderr
    for number, words in planted.items():
        assert any(word in errors[number] for word in words.split("|")), errors[number]
