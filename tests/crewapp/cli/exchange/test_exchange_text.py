"""What an exchange says in a terminal."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crewapp.cli.exchange.exchange_text import print_report
from sync.exchange.exchange_log import RejectedSegment
from sync.exchange.request import ExchangeReport
from sync.trust.members import Job


def test_rubbish_in_a_store_does_not_hide_the_rest(capsys: pytest.CaptureFixture[str]) -> None:
    """A thousand sentences would roll away what came and went; a machine gets them all."""
    report = ExchangeReport(Job("ab" * 16, "green-7-0011223344556677"))
    report.aside = tuple(
        RejectedSegment(f"{number}.seg", "segment.bytes", "Half.") for number in range(99)
    )
    assert print_report(Path("a.book"), report, as_json=False) == 1
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == 3 + 20 + 1
    assert "79 more" in lines[-1]

    print_report(Path("a.book"), report, as_json=True)
    assert len(json.loads(capsys.readouterr().out)["set_aside"]) == 99
