"""Base class of every command: one thing that a user can do to a job, as a frozen value."""

from __future__ import annotations

from typing import ClassVar


class Command:
    """Command of a user to a job, with all that its handler needs.

    A command is data: it can be made, compared and sent to another thread without a job.
    The function that carries it out is its handler; it stands in the module of the same
    name in ``crewapp.handlers``, or in the one that ``handler_module`` names.
    """

    __slots__ = ()

    handler_module: ClassVar[str] = ""
