"""Sections of a paper that could not be made: a sentence in the place of each.

An entry can hold what nobody foresaw. It costs the section that can't bear it, and the rest
of the paper is printed with its check code all the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import ParamSpec, TypeVar

from models.errors import CrewError

Made = TypeVar("Made")
Given = ParamSpec("Given")


def missing_section_text(name: str, fault: BaseException) -> str:
    """Sentence that a section could not be made, and why."""
    return f"This section could not be made: {name} ({type(fault).__name__})."


class MissingSections:
    """Sections of one paper that could not be made, in the order in which they were tried."""

    def __init__(self) -> None:
        self.told: list[str] = []

    def make_or_notice(
        self,
        name: str,
        fallback: Made,
        make: Callable[Given, Made],
        *given: Given.args,
        **named: Given.kwargs,
    ) -> Made:
        """Make a section; where that fails, note it and return what stands instead.

        Raises
        ------
        CrewError
            If what was asked for can't be done, which is for whoever asked.
        """
        try:
            return make(*given, **named)
        except CrewError:
            raise
        except Exception as fault:  # whatever the entries hold, the other sections are made
            self.told.append(missing_section_text(name, fault))
            return fallback


def yield_or_notice(
    name: str, make: Callable[[], Iterable[Made]], say: Callable[[str], Made]
) -> Iterator[Made]:
    """Yield parts as they are made; where one fails, say so in its place and end there."""
    try:
        yield from make()
    except CrewError:
        raise
    except Exception as fault:
        yield say(missing_section_text(name, fault))
