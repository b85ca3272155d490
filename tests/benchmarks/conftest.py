"""Collects benchmarks only when they are asked for, and prints their ratios at the end."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

AIMS: pytest.StashKey[list[tuple[str, pytest.Mark]]] = pytest.StashKey()


def pytest_configure(config: pytest.Config) -> None:
    """Make the two marks known."""
    config.addinivalue_line("markers", "ratio(to, at_most): median held against another test's")
    config.addinivalue_line("markers", "limit(at_most_ms): median held against a time")
    config.stash[AIMS] = []


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Leave benchmarks out of every run that does not ask for them."""
    asked = config.getoption("benchmark_only", default=False)
    return None if asked or collection_path.parent != Path(__file__).parent else True


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Remember what each benchmark is held against."""
    config.stash[AIMS] += [
        (item.name, mark)
        for item in items
        for mark in item.iter_markers()
        if mark.name in {"ratio", "limit"}
    ]


def in_words(seconds: float) -> str:
    """Return a time in the unit that suits it."""
    for size, unit in ((1.0, "s"), (1e-3, "ms"), (1e-6, "us")):
        if seconds >= size:
            return f"{seconds / size:.3g} {unit}"
    return f"{seconds * 1e9:.3g} ns"


def line_of(name: str, mark: pytest.Mark, medians: dict[str, float]) -> str:
    """Return the line that says what was measured, what was aimed at, and whether it was met."""
    other = mark.kwargs.get("to", "")
    if name not in medians or (other and other not in medians):
        return f"{mark.name:5}  {name}: not measured in this run"
    mine = medians[name]
    if mark.name == "limit":
        aim = mark.kwargs["at_most_ms"]
        verdict = "met" if mine * 1e3 <= aim else "MISSED"
        return f"limit  {name}: {in_words(mine)}, aim at most {aim} ms: {verdict}"
    ratio, aim = mine / medians[other], mark.kwargs["at_most"]
    verdict = "met" if ratio <= aim else "MISSED"
    times = f"{in_words(mine)} / {in_words(medians[other])}"
    return f"ratio  {name} / {other}: {ratio:.2f} ({times}), aim at most {aim}: {verdict}"


@pytest.hookimpl(trylast=True)
def pytest_terminal_summary(terminalreporter: Any, config: pytest.Config) -> None:
    """Print one line for each aim, after the table of times."""
    session = getattr(config, "_benchmarksession", None)
    measured = [b for b in session.benchmarks if b.stats.rounds] if session else []
    medians = {bench.name: float(bench.stats.median) for bench in measured}
    if not config.stash[AIMS]:
        return
    terminalreporter.section("ratios")
    for name, mark in config.stash[AIMS]:
        terminalreporter.write_line(line_of(name, mark, medians))
