"""Dispatch of commands to handlers and of queries to presenters, by their types.

Handlers and presenters are imported when their first command or query comes, so that
whoever makes these, a page above all, loads nothing of what carries them out.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any, TypeVar, cast

from pydantic import ValidationError

from crewapp.commands.command import Command
from crewapp.commands.query import Query
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.envelope import refusal

C = TypeVar("C", bound=Command)
V = TypeVar("V")
Q = TypeVar("Q", bound=Query[Any])
Handler = Callable[[OpenJob, C], JobChanges]
Presenter = Callable[[OpenJob, Q], V]

_FUNCTIONS: dict[type, Callable[..., Any]] = {}
"""Handler of each command and presenter of each query that was imported by now."""


def handles(kind: type[C]) -> Callable[[Handler[C]], Handler[C]]:
    """Mark a function as the handler of a kind of command.

    Raises
    ------
    TypeError
        If the kind has a handler already.
    """
    return lambda handler: _register(kind, handler)


def answers(kind: type[Q]) -> Callable[[Presenter[Q, V]], Presenter[Q, V]]:
    """Mark a function as the presenter of a kind of query.

    Raises
    ------
    TypeError
        If the kind has a presenter already.
    """
    return lambda presenter: _register(kind, presenter)


def do(job: OpenJob, command: Command) -> JobChanges:
    """Carry a command out: its entries are durable when this returns, all or none.

    Raises
    ------
    EntryRefusedError
        If a figure or a name does not fit the entry it belongs to; nothing is written.
    CrewError
        If its handler says that something stops it; nothing is written.
    """
    try:
        changed: JobChanges = function_for(type(command))(job, command)
    except ValidationError as fault:
        raise refusal(fault) from fault
    return changed


def read(job: OpenJob, query: Query[V]) -> V:
    """Answer a query: read the view that it asks for; nothing is written."""
    return cast("V", function_for(type(query))(job, query))


def function_for(kind: type) -> Callable[..., Any]:
    """Return the handler of a kind of command, or the presenter of a kind of query.

    Raises
    ------
    LookupError
        If the module that should hold it does not.
    """
    if kind not in _FUNCTIONS:
        import_module(module_for(kind))
    if kind not in _FUNCTIONS:
        raise LookupError(f"{module_for(kind)} has nothing for {kind.__name__}")
    return _FUNCTIONS[kind]


def module_for(kind: type) -> str:
    """Return the name of the module that holds what carries a kind out, or answers it."""
    if issubclass(kind, Command):
        return kind.handler_module or kind.__module__.replace(".commands", ".handlers", 1)
    return kind.__module__.removesuffix("view") + "presenter"


F = TypeVar("F", bound=Callable[..., Any])


def _register(kind: type, function: F) -> F:
    if kind in _FUNCTIONS:
        raise TypeError(f"{kind.__name__} is taken already, by {_FUNCTIONS[kind]}")
    _FUNCTIONS[kind] = function
    return function
