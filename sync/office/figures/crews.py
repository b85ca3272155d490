"""Names of crews: as people gave them, never a tablet's code."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, text

_TABLETS = text("SELECT stream, code, name FROM office_tablet ORDER BY job_no")
_WRITERS = text("SELECT stream, author, entries FROM office_writer")
_PERSONS = text(
    "SELECT stream, who, run_min FROM office_person WHERE day >= :since AND day <= :until"
)
_NAMED = 4


@dataclass(frozen=True, slots=True)
class Crew:
    """Crew of one tablet: its name, and the code of the tablet to keep like names apart."""

    name: str
    code: str


def read_crews(connection: Connection, span: Mapping[str, str]) -> dict[str, Crew]:
    """Return the crew of every stream.

    It goes by the name given to the tablet in a job's list of tablets; else by the persons
    with hours in the span, those with most first; else by the author most entries carry.
    """
    given: dict[str, str] = {}
    codes: dict[str, str] = {}
    for stream, code, name in connection.execute(_TABLETS):
        codes[stream] = code or stream
        given[stream] = name or given.get(stream, "")
    persons = _counted(connection.execute(_PERSONS, span).all())
    writers = _counted(connection.execute(_WRITERS).all())
    return {
        stream: Crew(
            given[stream] or _listed(persons[stream]) or _first(writers[stream]) or code, code
        )
        for stream, code in codes.items()
    }


def _counted(rows: Iterable[Sequence[Any]]) -> defaultdict[str, Counter[str]]:
    found: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for stream, name, amount in rows:
        found[stream][name] += amount
    return found


def _ranked(counts: Counter[str]) -> list[str]:
    return sorted((name for name in counts if name), key=lambda name: (-counts[name], name))


def _first(counts: Counter[str]) -> str:
    return next(iter(_ranked(counts)), "")


def _listed(counts: Counter[str]) -> str:
    names = _ranked(counts)
    return ", ".join(names[:_NAMED]) + (" and more" if len(names) > _NAMED else "")
