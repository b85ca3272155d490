"""``crewapp plan``: make or change a book's plan from a plan file."""

from __future__ import annotations

import argparse

from crewapp.actions.planning import set_up_all
from crewapp.commands.books import book_to_write
from crewapp.commands.files import read_text
from crewapp.paper.plan_file import read_plan


def run(args: argparse.Namespace) -> int:
    """Read the plan whole, then write it whole."""
    text = read_text(args.plan, "A plan file in JSON")
    plan = read_plan(args.plan, text)
    with book_to_write(args.book, args.author, make=True) as job:
        changed = set_up_all(job, plan)
    print(f"{len(changed.entries)} plan entries inked into {args.book}.")
    return 0
