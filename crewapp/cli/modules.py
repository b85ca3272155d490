"""Table of command words and the modules that do their work."""

from __future__ import annotations

_IN_FOLDERS = {
    "asbuilt": "papers.asbuilt",
    "gates": "plan.gates",
    "handover_make": "exchange.handover_make",
    "handover_take": "exchange.handover_take",
    "office_jobs": "office.jobs",
    "office_rebuild": "office.rebuild",
    "office_report": "office.report",
    "office_sheet": "office.sheet",
    "office_take": "office.take",
    "plan_audit": "plan.audit",
    "plan_compare": "plan.compare",
    "plan_import": "plan.import_plan",
    "plan_layout": "plan.layout",
    "plan_show": "plan.show",
    "progress": "plan.progress",
    "sheet": "papers.sheet",
    "sieve": "plan.sieve",
    "stakeout": "plan.stakeout",
    "sync": "exchange.sync",
    "tablets": "exchange.tablets",
    "takeoff": "plan.takeoff",
}
"""Commands whose module stands in the folder of its subject."""


def module_of(command: str) -> str:
    """Return the full name of the module of a command: ``plan_layout`` is one."""
    return f"crewapp.cli.{_IN_FOLDERS.get(command, command)}"
