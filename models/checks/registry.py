"""Registry of checks: every file check_*.py that holds a CHECK, and the rules of the audit."""

from __future__ import annotations

from importlib import import_module
from pkgutil import walk_packages

import models.checks as _package
from models.checks.failed_check import COULD_NOT_CHECK
from models.checks.finding import AnyCheck, Finding, Severity
from models.checks.plan_questions import plan_checks

_modules = walk_packages(_package.__path__, "models.checks.")

CHECKS: tuple[AnyCheck, ...] = (
    tuple(
        import_module(module.name).CHECK
        for module in sorted(_modules, key=lambda found: found.name.rpartition(".")[2])
        if module.name.rpartition(".")[2].startswith("check_")
    )
    + plan_checks()
)

BY_ID: dict[str, AnyCheck] = {check.id: check for check in (*CHECKS, COULD_NOT_CHECK)}
"""Every check that a finding may come from, by its name."""


def severity_of(finding: Finding) -> Severity:
    """Weight of a finding: its own, else that of its check."""
    return finding.severity or BY_ID[finding.check].severity
