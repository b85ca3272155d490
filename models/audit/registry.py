"""Registry of the rules of the audit: every file rule_*.py that holds a RULE."""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

import models.audit as _package
from models.audit.rule import Rule

RULES: tuple[Rule, ...] = tuple(
    sorted(
        (
            import_module(f"models.audit.{module.name}").RULE
            for module in iter_modules(_package.__path__)
            if module.name.startswith("rule_")
        ),
        key=lambda rule: rule.id,
    )
)
"""In order of their ids."""

BY_RULE: dict[str, Rule] = {rule.id: rule for rule in RULES}
