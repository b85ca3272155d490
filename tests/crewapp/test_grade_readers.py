"""Wherever a grade is asked for, ``1%`` is read, and so are the other ways of writing it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from importlib import import_module
from inspect import isfunction, signature
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from crewapp.cli.main import main
from crewapp.imports.notes.notes import read_notes
from crewapp.imports.plan.plan_file import read_plan
from crewapp.imports.problems import PaperError
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.keypad_value import FieldSpec, KeypadState
from models.units.job_units import Figures
from tests.crewapp.conftest import DAY, plan_text, put_plan
from tests.house.tree import modules

ONE_IN_A_HUNDRED = ["1%", "1 %", "1 percent", "1:100", "1 in 100", "0.12 in/ft", "10 mm/m"]
ONE_IN_A_HUNDRED += ["1.0%", "1\uff05", "0.01 ft/ft", "1 per cent", "10\u2030"]
RAIN = {"surface_id": "G7", "sand": "20 in/h", "roughness": "0.011"}
RAIN |= {"rain": "1 in", "lasts": "1 h"}


def fields_of(kind: str, told: dict[str, Any]) -> dict[str, Any]:
    """Return the fields of one kind of a plan as read."""
    plan = read_plan(Path("plan.json"), json.dumps(told))
    return next(fields for found, fields in plan if found == kind)


@pytest.mark.parametrize("text", ONE_IN_A_HUNDRED)
def test_plan_file_reads_every_grade(text: str) -> None:
    """The fall of a collector, its least, and the fall of the pipe in the slits."""
    told = json.loads(plan_text())
    told["collector"][0]["design"] |= {"grade": text, "least_grade": text}

    design = fields_of("collector", told)["design"]
    rain = fields_of("drainage_terms", {"drainage_terms": {**RAIN, "pipe_fall": text}})

    assert design["fall_nm"] * 100 == design["least_grade_fall_nm"] * 100 == design["run_nm"]
    assert rain["pipe_fall_millionths"] == 10_000


@pytest.mark.parametrize("text", ["1", "0.01", "1/100"])
def test_plan_file_guesses_no_grade(text: str) -> None:
    """A figure without a unit may be a percentage or a part of one."""
    with pytest.raises(PaperError, match=r"drainage_terms 1 \(G7\), pipe_fall: .*1%"):
        fields_of("drainage_terms", {"drainage_terms": {**RAIN, "pipe_fall": text}})


@pytest.mark.parametrize("text", ONE_IN_A_HUNDRED)
def test_field_notes_read_a_dialled_grade(job: OpenJob, text: str) -> None:
    """The grade of a laser's plane, typed up from paper."""
    notes = f"day,entry,setup,point,reading,collector,grade\n{DAY},setup,L9,BM1,4,C1,{text}\n"

    (writing,) = read_notes(Path("notes.csv"), notes, job)
    setup: Any = writing.body

    assert (setup.plane, setup.fall_nm * 100) == ("graded", setup.run_nm)


def grade_pads() -> list[FieldSpec]:
    """Every pad of the app that asks for a grade: it takes percent."""
    pads = [
        spec
        for name in modules()
        if name.startswith("crewapp.") and name.endswith(("fields", "form", "forms"))
        for spec in specs_of(import_module(name))
        if spec.unit == "%"
    ]
    assert {spec.name for spec in pads} == {
        "Grade dialled, % or 1:n",
        "Fall of the pipe in the slits, % or 1:n",
    }
    return pads


def specs_of(module: ModuleType) -> Iterator[FieldSpec]:
    """Give the fields that a module makes out of the units of a job alone."""
    for make in vars(module).values():
        takes = signature(make).parameters if isfunction(make) else {}
        if list(takes) == ["figures"]:
            made = make(Figures())
            found = made.values() if isinstance(made, dict) else [made]
            yield from (spec for spec in found if isinstance(spec, FieldSpec))


@pytest.mark.parametrize("text", ["1", "1.00", "1:100", "1:100.0"])
def test_pads_read_a_grade_like_paper(text: str) -> None:
    """Key by key in percent or as a ratio, and each pad names both beside its field."""
    for spec in grade_pads():
        pad = KeypadState(spec)
        for number, key in enumerate(text):
            assert key in spec.grammar.writing_keys()
            pad = pad.press(key, number * 1000)
        assert (pad.text, pad.value, pad.stored_text) == (text, 10_000, "1.00 %")
        assert (pad.unit, pad.echo) == ("" if ":" in text else "%", "1:100")


@pytest.mark.parametrize("text", ONE_IN_A_HUNDRED)
def test_what_stands_in_a_draft_is_read_too(text: str) -> None:
    """A pad's own reader takes every way of writing a grade."""
    assert [spec.parse(text) for spec in grade_pads()] == [10_000, 10_000]


@pytest.mark.parametrize(
    ("typed", "key", "told"),
    [
        ("2", ":", "A ratio begins with 1"),
        ("1:", "0", "from 1 to 9999"),
        ("1:200.5", "5", "from 1 to 9999"),
        ("1:20", ":", "A ratio begins with 1"),
        ("0.5", ":", "A ratio begins with 1"),
    ],
)
def test_pads_say_why_a_key_spoils_a_grade(typed: str, key: str, told: str) -> None:
    """A key that can't follow is refused with what would be read."""
    for spec in grade_pads():
        pad = KeypadState.resume(spec, typed).press(key, 0)
        assert pad.typed == typed
        assert told in pad.refused
        assert KeypadState.resume(spec, "1:").value is None


def test_plan_is_brought_in_by_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The gates are reckoned by a fall written as 1%."""
    plan = put_plan(tmp_path, drainage_terms=[{**RAIN, "pipe_bore": "0.8 in", "pipe_fall": "1%"}])

    assert main(["plan", "import", str(tmp_path / "new.book"), str(plan)]) == 0
    assert main(["plan", "show", str(tmp_path / "new.book"), "--json"]) == 0
    shown = json.loads(capsys.readouterr().out.splitlines()[-1])
    assert shown["plan"]["drainage_terms"][0]["pipe_fall_millionths"] == 10_000
