"""``crewapp plan show``: what the plan of a book holds."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator

from crewapp.cli.books import book_to_read
from crewapp.cli.example import Example
from crewapp.cli.plan.layout_text import layout_lines
from crewapp.handlers.plan.plan_entries import NAMED_BY, PLAN_KINDS
from crewapp.job.open_job import OpenJob
from crewapp.words.translate import translate_later
from models.entries.envelope import body_fields
from models.entries.index import B, EntryKind
from models.entries.kind_names import BY_NAME, LAYOUT, SURFACE

EXAMPLES = (
    Example(
        "crewapp plan show larkfield.book",
        translate_later("Surfaces with their lines, and the names of the rest"),
    ),
)


_OWN_LINES = ("surface", "layout", "job")


def run(args: argparse.Namespace) -> int:
    """Print the plan as it stands: surfaces with their lines, then the names of the rest."""
    with book_to_read(args.book) as job:
        if args.json:
            plan = {
                kind: [body_fields(body) for body in _bodies(job, BY_NAME[kind])]
                for kind in PLAN_KINDS
            }
            print(json.dumps({"job": job.name, "plan": plan}, ensure_ascii=False))
            return 0
        print(job.name)
        for surface in _bodies(job, SURFACE):
            layout = job.state.latest(LAYOUT, surface.surface_id)
            print("\n".join(layout_lines(surface, layout, job.figures)))
        for line in _others(job):
            print(line)
    return 0


def _bodies(job: OpenJob, kind: EntryKind[B]) -> list[B]:
    """Entries of a kind as they stand, one for each name."""
    names = job.state.every_name(kind)
    return [body for name in names if (body := job.state.latest(kind, name)) is not None]


def _others(job: OpenJob) -> Iterator[str]:
    """Names of everything that is no surface, kind by kind."""
    for kind in PLAN_KINDS:
        names = job.state.every_name(BY_NAME[kind])
        if kind in _OWN_LINES or not names:
            continue
        names = names if NAMED_BY[kind] else ["as agreed"]
        words = kind.replace("_", " ")
        yield f"{words}: {', '.join(names)}"
