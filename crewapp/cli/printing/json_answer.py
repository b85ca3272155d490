"""The JSON value that a command prints under ``--json``, also for a command that failed."""

from __future__ import annotations

import contextlib
import io
import json
import sys
from collections.abc import Iterable, Iterator
from dataclasses import asdict, is_dataclass
from typing import Any


def wants_json(words: Iterable[str]) -> bool:
    """Whether a command line asks for JSON, before it is known to be one that can be read."""
    return "--json" in words


def fault_facts(fault: BaseException, code: str, told: str, exit_code: int) -> dict[str, Any]:
    """Write what stopped a command as plain facts.

    ``code`` is stable and never reused, ``error`` is the sentence, ``exit`` the exit code,
    and ``problems`` has each thing to put right where there may be several: its ``sentence``,
    and its place as ``row`` and ``column`` where it has one.
    """
    facts: dict[str, Any] = {"error": told, "code": code, "exit": exit_code}
    problems = [_problem(one) for one in _problems_of(fault)]
    return facts | ({"problems": problems} if problems else {})


def _problems_of(fault: BaseException) -> Iterable[Any]:
    """Return what an error lists, if it is one that lists."""
    context = getattr(fault, "context", {})
    held = getattr(fault, "problems", None) or context.get("problems") or context.get("faults")
    return held if isinstance(held, list | tuple) else ()


def _problem(one: Any) -> dict[str, Any]:
    if is_dataclass(one) and not isinstance(one, type):
        told = one.to_text() if hasattr(one, "to_text") else getattr(one, "sentence", "")
        return asdict(one) | {"sentence": told}
    return {"sentence": str(one)}


def print_fault(facts: dict[str, Any]) -> None:
    """Print the one value of a command that failed; where nobody can take it, print nothing."""
    with contextlib.suppress(OSError):
        print(json.dumps(facts, ensure_ascii=False, default=str), flush=True)


@contextlib.contextmanager
def printing_json_last(*, is_json: bool) -> Iterator[None]:
    """Hold back what is printed as JSON until the command is through; a fault drops it."""
    if not is_json:
        yield
        return
    held = io.StringIO()
    with contextlib.redirect_stdout(held):
        yield
    sys.stdout.write(held.getvalue())
