"""``crewapp plan layout``: lay the lines of a surface, with drives, stubs and joints."""

from __future__ import annotations

import argparse
import json
from dataclasses import asdict

from crewapp.cli.books import book_to_read, book_to_write
from crewapp.cli.example import Example
from crewapp.cli.plan.layout_request import read_layout_request
from crewapp.cli.plan.layout_text import WORDS, audit_facts, audit_lines, layout_lines, use_facts
from crewapp.handlers.plan.bearing_text import bearing_texts
from crewapp.handlers.plan.layout import accept, preview, worked_lines_at_risk
from crewapp.handlers.plan.plan_entries import plan_faults
from crewapp.job.open_job import OpenJob
from crewapp.words.translate import translate_later
from models.audit.plan_audit import fault_text, faults_of_level
from models.audit.rule import Level
from models.counted import CountedNoun
from models.errors import CrewError
from models.queries.layout.lay_lines import LaidSurface

EXAMPLES = (
    Example(
        "crewapp plan layout larkfield.book --surface F2 --sand-slits 24in --dry-run",
        translate_later("How lines would lie, and whether work is in the way"),
    ),
    Example(
        "crewapp plan layout my.book --surface G5 --sand-slits 16in --piped-slits 4ft",
        translate_later("Lines over the green of a plan brought in, written"),
    ),
)


class SpacingMissingError(CrewError, ValueError):
    """Lines were to be laid without a spacing."""

    code = "laying.nothing_asked"
    sentence = (
        "Nothing was written: no lines were asked for on {surface}, and none were laid before. "
        "A spacing would do, such as --sand-slits 16in or --piped-slits 4ft."
    )


def run(args: argparse.Namespace) -> int:
    """Lay the lines and write them; with ``--dry-run`` only show them."""
    if args.dry_run:
        with book_to_read(args.book) as job:
            laid = _lay(args, job)
            moved = worked_lines_at_risk(job, laid)
            _tell(args, job, laid, 0)
            barred = faults_of_level(plan_faults(job, [laid.surface, laid.layout]), Level.REFUSE)
            if moved and not args.json:
                print(f"It could not be written: work stands on {', '.join(moved)}.")
            for fault in barred if not args.json else ():
                print(f"It could not be written: {fault_text(fault, job.figures)}")
            return 1 if moved or barred else 0
    with book_to_write(args.book, args.author) as job:
        laid = _lay(args, job)
        changed = accept(job, laid)
        _tell(args, job, laid, len(changed.entries))
    return 0


def _lay(args: argparse.Namespace, job: OpenJob) -> LaidSurface:
    laid = preview(job, args.surface, **read_layout_request(args, job))
    if not laid.layout.terms and not args.no_sand_slits and not args.no_piped_slits:
        raise SpacingMissingError(surface=args.surface)
    return laid


def _tell(args: argparse.Namespace, job: OpenJob, laid: LaidSurface, written: int) -> None:
    parts = {("surface", args.surface), ("layout", args.surface)}
    if args.json:
        facts = {
            "written": written,
            "uses": [use_facts(laid.surface, laid.layout, use) for use in WORDS],
            "surface": laid.surface.model_dump(mode="json"),
            "layout": laid.layout.model_dump(mode="json"),
            "bearings": [asdict(one) for one in laid.settled],
            **audit_facts(job, parts, laid),
        }
        print(json.dumps(facts, ensure_ascii=False))
        return
    for line in (
        *layout_lines(laid.surface, laid.layout, job.figures),
        *audit_lines(job, parts, laid),
    ):
        print(line)
    for row in bearing_texts(laid.settled):
        print(f"  {row.title}: {row.figure}; {row.detail}.")
    print(f"{CountedNoun(written):entry|entries} inked." if written else "Nothing was written.")
