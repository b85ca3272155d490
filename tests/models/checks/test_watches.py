"""Each kind of entry that a check watches is needed: a case tells when it is left out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.checks.finding import AnyCheck
from models.entries.kind_names import BY_NAME
from tests.models.checks.test_cases import (
    CHECKS,
    cases_of,
    entry_by_entry,
    expected,
    orders_of,
)
from tests.models.checks.written_job import entries_of


def is_needed(check: AnyCheck, kind: str) -> bool:
    """Whether some case goes wrong, in some order, while a kind of entry is not watched."""
    fewer = {name: subjects for name, subjects in check.watches.items() if name != kind}
    blind = replace(check, watches=fewer)
    return any(
        entry_by_entry(blind, case, entries) != expected(case)
        for case in cases_of(check)
        for entries in orders_of(entries_of(case))
    )


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_each_kind_watched_is_needed_by_a_case(check: AnyCheck) -> None:
    """Where an entry of a kind comes last and the check doesn't look again, a case goes wrong."""
    assert [kind for kind in check.watches if not is_needed(check, kind)] == []


def test_a_kind_that_changes_nothing_is_found() -> None:
    """A check that watches notes besides would look again for nothing."""
    check = next(check for check in CHECKS if check.id == "depth_shallow")
    (subjects, *_) = check.watches.values()
    busy = replace(check, watches={**check.watches, "note": subjects})

    assert "note" in BY_NAME
    assert not is_needed(busy, "note")
    assert all(is_needed(busy, kind) for kind in check.watches)
