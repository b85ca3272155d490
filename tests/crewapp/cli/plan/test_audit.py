"""``crewapp plan audit``: every finding of a book's plan, its answer, and how the command ends."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.main import main
from crewapp.handlers.flags import answer_to
from crewapp.job.dispatch import do
from crewapp.job.open_job import NewEntry, OpenJob
from crewapp.tablet.clock import TabletClock
from models.audit.registry import RULES
from models.audit.rule import Level
from models.book.store import Book
from models.entries.envelope import build_body
from tests.crewapp.conftest import plan_text, put_plan
from tests.models.audit.test_rules import cases_of, view_of

Captured = pytest.CaptureFixture[str]
STREAM = "tablet-a"


def audited(book: Path, capsys: Captured) -> tuple[int, list[dict[str, Any]]]:
    """Run the command for a machine: its exit code and what it finds."""
    capsys.readouterr()
    code = main(["plan", "audit", str(book), "--json"])
    findings: list[dict[str, Any]] = json.loads(capsys.readouterr().out)["findings"]
    return code, findings


def odd_plan(folder: Path) -> Path:
    """A book whose plan asks why its slits are nearer together than is usual."""
    surface = json.loads(plan_text())["surface"]
    (first, *_) = surface if isinstance(surface, list) else [surface]
    first["sand_slits"] |= {"spacing": "3 in"}
    plan = put_plan(folder, surface=surface)
    assert main(["plan", "import", str(folder / "odd.book"), str(plan)]) == 0
    return folder / "odd.book"


def test_sound_plan_has_no_finding(demo_book: Path, capsys: Captured) -> None:
    """Exit 0, and how many rules it was gone through by."""
    assert main(["plan", "audit", str(demo_book)]) == 0
    rules = sum(bool(rule.kinds) for rule in RULES)
    assert f"gone through by {rules} rules, and nothing was found." in capsys.readouterr().out
    assert audited(demo_book, capsys) == (0, [])


def test_findings_are_told_until_they_are_answered(tmp_path: Path, capsys: Captured) -> None:
    """Exit 1 with what would be accepted; once each is answered, exit 0 with the answers."""
    book = odd_plan(tmp_path)
    code, findings = audited(book, capsys)
    assert code == 1
    assert {one["level"] for one in findings} <= {"ask", "note"}
    spaced = "The sand slits of G7 are planned 3 in (0.2 ft) apart; 4 in to 120 in is usual."
    assert spaced in [one["found"] for one in findings]
    assert main(["plan", "audit", str(book)]) == 1
    said = capsys.readouterr().out
    for one in findings:
        assert one["found"] in said
        assert f"accepted: {one['accepted']}." in said

    job = OpenJob(Book.open(book, stream=STREAM), TabletClock(), author="office")
    for flag in job.board.open_flags():
        if flag.finding.check.startswith("plan/"):
            do(job, answer_to(flag, answer="accept", why="agreed with the owner"))
    job.close()
    code, answered = audited(book, capsys)
    assert code == 0
    assert [one["found"] for one in answered] == [one["found"] for one in findings]
    assert {one["answer"] for one in answered if one["level"] == "ask"} == {"accept"}
    assert main(["plan", "audit", str(book)]) == 0
    assert "answered: accept. agreed with the owner" in capsys.readouterr().out


def test_every_rule_is_heard(tmp_path: Path, capsys: Captured) -> None:
    """Each case of each rule about a book, the refused ones too: they may come from elsewhere."""
    told_job = build_body("job", {"job_id": "j", "name": "Hollow green"})
    wrong, heard = [], set()
    for rule in RULES:
        for number, case in enumerate(cases_of(rule) if rule.kinds else ()):
            if "source" in case:
                continue  # a file that was read is gone
            view = view_of(case)
            parts = (
                view.machines,
                view.collectors,
                view.outlets,
                view.surfaces,
                view.layouts,
            )
            bodies = [body for part in parts for body in part.values()]
            path = tmp_path / f"{rule.id}-{number}.book"
            job = OpenJob(
                Book.create(path, stream=STREAM, reserve_bytes=4096), TabletClock(), author="office"
            )
            job.ink(*(NewEntry(body, day="2026-05-11") for body in [told_job, *bodies]))
            job.close()
            code, findings = audited(path, capsys)
            found = sorted(" ".join(one["part"]) for one in findings if one["rule"] == rule.id)
            expected = sorted(one["part"] for one in case["finds"])
            is_open = any(one["level"] != Level.NOTE for one in findings)
            heard |= {rule.id} if found else set()
            if found != expected or code != is_open:
                wrong.append(f"{rule.id} {case['name']}: {found}, exit {code}")

    assert wrong == []
    assert heard == {rule.id for rule in RULES if rule.kinds}
