"""``crewapp office jobs``: what the office holds."""

from __future__ import annotations

import argparse
import json
from typing import Any

from crewapp.cli.example import Example
from crewapp.cli.office.opening import office_to_read
from crewapp.words.translate import translate_later
from models.counted import CountedNoun
from sync.office.report import JobLine, read_report
from sync.office.report_tables import caveats
from sync.papers.wording.safe_text import single_line

EXAMPLES = (Example("crewapp office jobs", translate_later("The jobs that office.db holds")),)


def run(args: argparse.Namespace) -> int:
    """List the jobs of the office's database."""
    with office_to_read(args.db, args.json) as office:
        jobs = read_report(office).jobs
    if args.json:
        print(json.dumps({"jobs": [_facts(job) for job in jobs]}, ensure_ascii=False))
        return 0
    if not jobs:
        print("The office holds no job yet.")
    for job in jobs:
        days = f"{job.first_day} to {job.last_day}"
        print(
            f"{job.key}: {single_line(job.name)}, {CountedNoun(job.entries):entry|entries}, {days}"
        )
        for said in caveats(job):
            print(f"  {said}")
    return 0


def _facts(job: JobLine) -> dict[str, Any]:
    return {
        "job": job.key,
        "name": job.name,
        "entries": job.entries,
        "first_day": job.first_day,
        "last_day": job.last_day,
        "written_by_newer_version": job.newer,
        "unreadable": job.unreadable,
        "fault": job.fault,
    }
