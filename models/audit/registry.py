"""Registry of the rules of the audit: every file rule_*.py that holds a RULE, in any folder."""

from __future__ import annotations

from importlib import import_module
from pkgutil import walk_packages

import models.audit as _package
from models.audit.rule import Rule

RULES: tuple[Rule, ...] = tuple(
    sorted(
        (
            import_module(module.name).RULE
            for module in walk_packages(_package.__path__, f"{_package.__name__}.")
            if ".rule_" in module.name
        ),
        key=lambda rule: rule.id,
    )
)
"""In order of their ids."""

BY_RULE: dict[str, Rule] = {rule.id: rule for rule in RULES}
