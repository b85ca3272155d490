"""The one caller of every audit rule's cases in fixtures/audit.

A file of cases is named for the rule's module. Each case takes the plan of ``_plan.json``,
changes it at some places ("surface.G7.sand_slits.width_nm": "4 in"), may add what a drawing
holds (``source``), and says what the rule finds. Quantities are texts with their units.
"""

from __future__ import annotations

import copy
import json
import re
from pathlib import Path
from string import Formatter
from typing import Any

import pytest

from models.audit.plan_audit import fault_text
from models.audit.plan_view import DrawnKeepOut, PlanView
from models.audit.registry import RULES
from models.audit.rule import Level, PlanFault, Rule
from models.entries.envelope import build_body
from models.science.shapes.rings import PointNm
from models.units.job_units import figures_of
from tests.models.checks.written_job import in_base_units

CASES = Path(__file__).parents[3] / "fixtures" / "audit"
PLAN = json.loads((CASES / "_plan.json").read_text("utf-8"))
UNITS = [figures_of("us", "us_100ft"), figures_of("metric", "metric_1000m")]
Case = dict[str, Any]


def name_of(rule: Rule) -> str:
    """Name of the file that holds a rule, without its first word."""
    return rule.examine.__module__.rpartition(".rule_")[2]


def cases_of(rule: Rule) -> list[Case]:
    """Cases of one rule."""
    found: list[Case] = json.loads((CASES / f"{name_of(rule)}.json").read_text("utf-8"))
    return found


def all_cases() -> list[Any]:
    """One parameter per case, named so that a failure reads well."""
    return [
        pytest.param(rule, case, id=f"{rule.id}-{case['name']}")
        for rule in RULES
        for case in cases_of(rule)
    ]


def put(told_plan: Any, place: str, value: Any) -> None:
    """Change one place of a plan."""
    *way, last = place.split(".")
    for part in way:
        told_plan = told_plan[int(part)] if isinstance(told_plan, list) else told_plan[part]
    told_plan[last] = value


def view_of(case: Case) -> PlanView:
    """The plan of a case."""
    plan = copy.deepcopy(PLAN)
    for place, value in case["change"].items():
        put(plan, place, value)
    bodies = [
        build_body(kind, in_base_units(fields))
        for kind, named in plan.items()
        for fields in named.values()
    ]
    source = case.get("source")
    sources = (source_of(in_base_units(source)),) if source else ()
    return PlanView(sources=sources).with_bodies(bodies)


def source_of(fields: dict[str, Any]) -> DrawnKeepOut:
    """What a drawing holds, as a case writes it."""
    told_points = fields.pop("points", [])
    lists = {name: tuple(value) for name, value in fields.items() if isinstance(value, list)}
    points = tuple(
        (name, PointNm(*(in_base_units({"at_nm": text})["at_nm"] for text in at)))
        for name, at in told_points
    )
    return DrawnKeepOut(**{**fields, **lists, "points": points})


def plain(fault: PlanFault) -> dict[str, Any]:
    """A fault as a case writes it."""
    return {
        "saying": fault.saying,
        "part": " ".join(fault.part),
        "place": fault.place,
        "facts": dict(fault.facts),
    }


def in_order(found: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Faults in one order."""
    return sorted(found, key=lambda one: (one["part"], one["place"], one["saying"]))


@pytest.mark.parametrize(("rule", "case"), all_cases())
def test_rule_finds_what_the_case_says(rule: Rule, case: Case) -> None:
    """The rule finds exactly what the case says, and says each fault in both units."""
    found = list(rule.examine(view_of(case)))

    assert in_order([plain(one) for one in found]) == in_order(in_base_units(case["finds"]))
    for fault in found:
        assert fault.rule == rule.id
        for units in UNITS:
            assert re.fullmatch(r"[^{}]+\. Accepted: [^{}]+[^.]\.", fault_text(fault, units))


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_rule_is_seen_to_pass_and_to_fail_in_each_of_its_ways(rule: Rule) -> None:
    """Every saying is met by a case, one case finds nothing, no name stands twice."""
    cases = cases_of(rule)
    met = {one["saying"] for case in cases for one in case["finds"]}

    assert met == set(rule.sayings)
    assert any(not case["finds"] for case in cases)
    assert len({case["name"] for case in cases}) == len(cases)


def test_every_rule_has_cases_and_every_case_file_a_rule() -> None:
    """Case files and rules are the same names, and each id stands once."""
    files = {path.stem for path in CASES.glob("*.json") if not path.stem.startswith("_")}

    assert files == {name_of(rule) for rule in RULES}
    assert len({rule.id for rule in RULES}) == len(RULES)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_rule_speaks_in_sentences(rule: Rule) -> None:
    """Figures with a unit are shown by a method of Figures; plain texts hold none."""
    for text in (rule.problem, rule.why, rule.cure):
        assert text.endswith(".")
        assert not re.search(r"[\d{}]", text)
    for saying in rule.sayings.values():
        assert saying.level in Level
        assert saying.what.endswith(".")
        assert not saying.accepted.endswith(".")
        for _, name, shown_by, _ in Formatter().parse(saying.what + saying.accepted):
            if name is not None:
                assert bool(shown_by) == name.endswith(("_nm", "_ppm")), name
                assert not shown_by or hasattr(UNITS[0], shown_by)
