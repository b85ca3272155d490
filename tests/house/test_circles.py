"""No file imports, by whatever way round, a file that imports it."""

from __future__ import annotations

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from graphlib import CycleError, TopologicalSorter

import pytest

from tests.house.tree import imports_of, modules


def circle(graph: Mapping[str, AbstractSet[str]]) -> list[str]:
    """Return one circle of a graph, empty if there is none."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as fault:
        found: list[str] = fault.args[1]
        return found
    return []


def test_no_file_leads_back_to_itself() -> None:
    """Imports inside functions and those for types alone count too: they tie as well."""
    files = modules()
    graph = {name: (imports_of(path) & files.keys()) - {name} for name, path in files.items()}

    assert circle(graph) == []


@pytest.mark.parametrize(
    ("graph", "expected"),
    [
        ({"a": {"b"}, "b": {"c"}, "c": set()}, set()),
        ({"a": {"b"}, "b": {"c"}, "c": {"a"}}, {"a", "b", "c"}),
    ],
)
def test_circle_is_found(graph: dict[str, set[str]], expected: set[str]) -> None:
    """The search names a circle that is there, and none that is not."""
    assert set(circle(graph)) == expected
