"""Reports of unforeseen faults: a sentence, and a file that holds nothing of any book."""

from __future__ import annotations

import os
import platform
import traceback
from collections.abc import Iterator
from datetime import UTC, datetime
from importlib.metadata import PackageNotFoundError, version
from itertools import count
from pathlib import Path

from crewapp.version import VERSION

FOLDER = "faults"
_LIBRARIES = ("kivy", "sqlalchemy", "pydantic", "fpdf2", "pillow", "shapely", "cryptography")


def keep_report(fault: BaseException, command: str) -> Path:
    """Write a report of a fault into the tablet's folder; return its path.

    It holds versions, the command's name, and for each error its kind and where it was
    raised. Messages of errors and arguments of the command are left out: they may quote
    the book.

    Raises
    ------
    NotSavedError
        If the storage refuses.
    """
    from crewapp.tablet.atomic_files import write_atomically
    from crewapp.tablet.settings import Tablet

    folder = Tablet.of_user().folder / FOLDER
    stamp = datetime.now(UTC).strftime("%Y-%m-%dT%H-%M-%SZ")
    names = (f"{stamp}{f'-{number}' if number else ''}.txt" for number in count())
    path = next(folder / name for name in names if not (folder / name).exists())
    text = "\n".join([*_versions(command), "", *_errors(fault)])
    write_atomically(path, f"{text}\n".encode(errors="backslashreplace"))
    return path


def report_fault(fault: BaseException, command: str) -> str:
    """Keep a report of a fault, and return a sentence on what happened and where it lies."""
    from crewapp.tablet.atomic_files import NotSavedError

    kind = type(fault).__name__
    try:
        where = f"A report that holds nothing of any book lies at {keep_report(fault, command)}"
    except NotSavedError as refused:
        where = f"No report could be kept ({refused.context['why']})"
    return (
        f"Stopped by something unforeseen in {command} ({kind}). What was inked stands. "
        f"{where}; `crewapp --debug ...` or CREWAPP_DEBUG=1 shows all of it here."
    )


def is_debug_wanted() -> bool:
    """Whether ``CREWAPP_DEBUG`` asks for faults in full, as where a window has no command line."""
    return os.environ.get("CREWAPP_DEBUG", "") not in ("", "0")


def _versions(command: str) -> Iterator[str]:
    yield f"crewapp {VERSION}, command {command}"
    yield f"Python {platform.python_version()}, {platform.platform()}"
    for name in _LIBRARIES:
        try:
            yield f"{name} {version(name)}"
        except PackageNotFoundError:
            yield f"{name} not installed"


def _errors(fault: BaseException) -> Iterator[str]:
    """Tell the chain of errors, the one that began it first."""
    chain: list[BaseException] = []
    one: BaseException | None = fault
    while one is not None and one not in chain:
        chain.append(one)
        one = one.__cause__ or (None if one.__suppress_context__ else one.__context__)
    for error in reversed(chain):
        for frame in traceback.extract_tb(error.__traceback__):
            yield f"  {frame.filename}:{frame.lineno} in {frame.name}"
        yield f"{type(error).__module__}.{type(error).__name__}"
