"""Reads the commands out of a document, as its readers would type them, and runs them in one shell.

Blocks are fenced and tagged: in ``sh`` every line is typed; in ``console`` lines after ``$`` are
typed (``>`` goes on), and what stands below them is what is printed, ``...`` for anything.
``needs=sshd,postgres,screen`` says what a block stands on, ``notrun="why"`` that it is not run.
A row of a table whose first cell is a command is typed as it stands.
"""

from __future__ import annotations

import re
import shlex
from dataclasses import dataclass
from pathlib import Path

FENCE = re.compile(r"^```(\w*)\s*(.*)$")
ROW = re.compile(r"^\| `(crewapp[^`]*)` \|")
TAGS = ("sh", "console")


@dataclass(frozen=True, slots=True)
class Step:
    """Something typed, at its line of the document, and what is printed of which form."""

    line: int
    typed: str
    printed: str = ""
    is_whole: bool = False
    """A block of lines that all have to succeed; else one command of any code but 2."""
    needs: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class NotRun:
    """A block that is not run, and why."""

    line: int
    typed: str
    why: str


class UntaggedBlockError(ValueError):
    """A block says neither what it is nor why it is not run."""


def read_document(path: Path) -> tuple[list[Step], list[NotRun]]:
    """Steps of a document in order, and blocks that are not run.

    Raises
    ------
    UntaggedBlockError
        If a block is indented, not closed, or of a form nobody runs.
    """
    steps: list[Step] = []
    left: list[NotRun] = []
    lines = path.read_text("utf-8").splitlines()
    end = 0
    for number, line in enumerate(lines, start=1):
        if number <= end:
            continue
        row, fence = ROW.match(line), FENCE.match(line)
        if row is not None:
            steps.append(Step(number, row[1]))
        elif line.startswith("    "):
            raise UntaggedBlockError(f"{path.name}:{number}: an indented block has no tag")
        elif fence is not None:
            block = _block(path.name, lines, number, fence)
            end = number + len(block.body) + 1
            if "notrun" in block.tags:
                left.append(NotRun(number, "\n".join(block.body), block.tags["notrun"]))
            else:
                steps += _steps(block)
    return steps, left


@dataclass(frozen=True, slots=True)
class _Block:
    """A fenced block: the line of its fence, its word, its tags, and what stands in it."""

    line: int
    form: str
    tags: dict[str, str]
    body: list[str]


def _block(name: str, lines: list[str], number: int, fence: re.Match[str]) -> _Block:
    """The block whose fence is the line of a number."""
    if "```" not in lines[number:]:
        raise UntaggedBlockError(f"{name}:{number}: this block is not closed")
    if fence[1] not in TAGS:
        raise UntaggedBlockError(f"{name}:{number}: tag it as one of {TAGS}")
    body = lines[number : lines.index("```", number)]
    return _Block(number, fence[1], _tags(fence[2]), body)


def _tags(text: str) -> dict[str, str]:
    """``name=value`` pairs behind the word of a fence."""
    return dict(part.split("=", 1) for part in shlex.split(text))


def _steps(block: _Block) -> list[Step]:
    """What is typed in a block, one by one or as a whole."""
    needs = frozenset(filter(None, block.tags.get("needs", "").split(",")))
    if block.form == "sh":
        return [Step(block.line + 1, "\n".join(block.body), is_whole=True, needs=needs)]
    found: list[Step] = []
    printed: list[str] = []
    typed, at = "", 0
    for number, line in enumerate([*block.body, "$ "], start=block.line + 1):
        if line.startswith("> "):
            typed += "\n" + line[2:]
        elif line.startswith("$ "):
            if typed:
                found.append(Step(at, typed, "\n".join(printed), needs=needs))
            typed, printed, at = line[2:], [], number
        else:
            printed.append(line)
    return found


def is_printed(expected: str, got: str) -> bool:
    """Whether what was printed is of the form expected, ``...`` standing for anything."""
    if not expected:
        return True
    lines = [re.escape(line).replace(r"\.\.\.", ".*") for line in expected.splitlines()]
    form = "\n".join(lines).replace("\n.*\n", r"\n(?:.*\n)*?")
    form = re.sub(r"^\.\*\n", r"(?:.*\n)*?", form)
    form = re.sub(r"\n\.\*$", r"(?:\n.*)*", form)
    if form == ".*":
        return True
    shown = "\n".join(line.rstrip() for line in got.strip().splitlines())
    return re.fullmatch(form, shown) is not None
