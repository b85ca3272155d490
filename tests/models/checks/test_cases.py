"""The one caller of every check's cases in fixtures/checks."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from string import Formatter
from typing import Any

import pytest

from models.checks.failed_check import COULD_NOT_CHECK
from models.checks.finding import AnyCheck, Finding
from models.checks.finding_text import sentence
from models.checks.flag_board import FlagBoard
from models.checks.registry import CHECKS as ALL
from models.entries.envelope import AnyEntry
from models.units.job_units import figures_of
from tests.models.checks.facts import FACTS
from tests.models.checks.written_job import CASES, entries_of, in_base_units, state_of

CHECKS = tuple(check for check in ALL if not check.id.startswith("plan/"))
"""Those with a file and cases of their own; the audit's rules have theirs in fixtures/audit."""

UNITS = [figures_of("us", "us_100ft"), figures_of("metric", "metric_1000m")]


def cases_of(check: AnyCheck) -> list[dict[str, Any]]:
    """Cases of one check; none while its file is missing, which a test of its own tells."""
    path = CASES / f"{check.id}.json"
    return json.loads(path.read_text("utf-8")) if path.exists() else []


def told(findings: Iterable[Finding]) -> list[dict[str, Any]]:
    """Findings as a case writes them, in one order."""
    plain = [
        {
            "subject": found.subject,
            "place": found.place,
            "facts": dict(found.facts),
            "severity": found.severity,
        }
        for found in findings
    ]
    return sorted(plain, key=lambda one: (one["subject"], one["place"]))


def expected(case: dict[str, Any]) -> list[dict[str, Any]]:
    """Findings that a case expects, with its quantities in base units."""
    plain = [{"place": "", "severity": None, **in_base_units(found)} for found in case["findings"]]
    return sorted(plain, key=lambda one: (one["subject"], one["place"]))


def fields_of(check: AnyCheck) -> list[tuple[str, str | None, str | None, str | None]]:
    """Every field of the messages of a check, and the text before it."""
    messages = (check.message, *check.messages.values())
    return [one for message in messages for one in Formatter().parse(message)]


def fault_of(check: AnyCheck, case: dict[str, Any]) -> str:
    """Return what is wrong with what a check finds in a case; empty if nothing is."""
    state = state_of(case)
    for entry in entries_of(case):
        state.add(entry)
    found = FlagBoard(state, (check,)).findings()
    if told(found) != expected(case):
        return f"finds {told(found)}, not {expected(case)}"
    for finding in found:
        if finding.check != check.id or not finding.day:
            return f"{finding} bears no check or no day"
        if not set(finding.entries) <= set(state.entries):
            return f"{finding} rests on entries that are not there"
        for units in UNITS:
            text = sentence(finding, units)
            if not re.fullmatch(r"[^{}]+\.", text):
                return f"{text!r} is no sentence"
    return ""


def entry_by_entry(
    check: AnyCheck, case: dict[str, Any], entries: Iterable[AnyEntry]
) -> list[dict[str, Any]]:
    """Return the flags after looking again at each entry, in the order given."""
    state = state_of(case)
    board = FlagBoard(state, (check,))
    for entry in entries:
        state.add(entry)
        board.update(entry)
    return told(board.findings())


def orders_of(entries: list[AnyEntry]) -> Iterator[list[AnyEntry]]:
    """Yield orders in which entries may come: as written, backwards, and each of them last."""
    yield entries
    yield entries[::-1]
    for place, entry in enumerate(entries):
        yield [*entries[:place], *entries[place + 1 :], entry]


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_check_finds_what_its_cases_say(check: AnyCheck) -> None:
    """The check finds exactly what each case says, and each finding can be said in both units."""
    faults = {case["name"]: fault_of(check, case) for case in cases_of(check)}

    assert {name: fault for name, fault in faults.items() if fault} == {}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_cases_entry_by_entry(check: AnyCheck) -> None:
    """Looking again after each entry ends in the same flags, whichever of them comes last."""
    for case in cases_of(check):
        for entries in orders_of(entries_of(case)):
            order = [entry.id for entry in entries]
            found = entry_by_entry(check, case, entries)
            assert found == expected(case), f"{case['name']}, in the order {order}"


def test_a_wrong_case_is_found() -> None:
    """A case that expects a finding too many, or one with other facts, does not pass."""
    check = next(check for check in CHECKS if check.id == "depth_shallow")
    failing = next(case for case in cases_of(check) if case["findings"])
    fact = {**failing["findings"][0]["facts"], "depth_nm": "1 in"}
    other = {**failing, "findings": [{**failing["findings"][0], "facts": fact}]}

    assert fault_of(check, failing) == ""
    assert fault_of(check, other).startswith("finds ")
    assert fault_of(check, {**failing, "findings": []}).startswith("finds ")


def test_every_check_has_cases_and_every_case_file_a_check() -> None:
    """Case files and checks are the same names."""
    files = {path.stem for path in CASES.glob("*.json") if not path.stem.startswith("_")}

    assert files == {check.id for check in CHECKS}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_check_is_seen_to_pass_to_fail_and_to_let_go(check: AnyCheck) -> None:
    """A passing case, a failing one, and one where what offended is struck, no names twice."""
    cases = cases_of(check)
    names = [case["name"] for case in cases]
    cured = [
        case
        for case in cases
        if not case["findings"] and any("strikes" in entry for entry in case["entries"])
    ]

    assert {bool(case["findings"]) for case in cases} == {True, False}
    assert cured, "no case strikes what offends and finds nothing"
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_check_speaks_in_sentences(check: AnyCheck) -> None:
    """Each text ends in a full stop; figures stand in the message alone, through its facts."""
    plain = (check.problem, check.why, check.cure, *check.cures.values())
    messages = (check.message, *check.messages.values())

    assert all(text.endswith(".") for text in (*plain, *messages))
    assert not any(re.search(r"[\d{}]", text) for text in plain)
    assert not any(re.search(r"\d", re.sub(r"{[^}]*}", "", text)) for text in messages)
    assert len(check.problem.split(". ")) == 1


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_message_uses_facts_by_their_own_figures(check: AnyCheck) -> None:
    """A fact with a unit is shown by a method of Figures; a word or a count as it is."""
    for _, name, shown_by, _ in fields_of(check):
        if name is not None:
            assert name.isidentifier()
            assert bool(shown_by) == name.endswith(("_nm", "_pl", "_ug", "_ppm")), name
            assert not shown_by or hasattr(UNITS[0], shown_by)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_check_is_named_for_its_file(check: AnyCheck) -> None:
    """The id of a check is the name of the file that holds it."""
    assert check.examine.__module__.rpartition(".")[2] == f"check_{check.id}"


def test_facts_come_from_one_list() -> None:
    """Facts in cases and messages are those of the list, which is sorted and holds no others."""
    said = {
        name for check in (*CHECKS, COULD_NOT_CHECK) for _, name, _, _ in fields_of(check) if name
    } | {
        fact
        for check in CHECKS
        for case in cases_of(check)
        for found in case["findings"]
        for fact in found["facts"]
    }

    assert sorted(said) == list(FACTS)
