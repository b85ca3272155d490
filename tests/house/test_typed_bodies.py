"""A body is read by its type: nowhere as ``Any``, by the text of a field's name, or by a cast.

A job's state gives entries typed by their bodies, so the type checker finds a field that its
kind has not; each of these ways past it hides such a field until somebody meets it on a job.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest

from tests.house.tree import PACKAGES, ROOT, python_files

GIVES_BODIES = frozenset({"latest", "bodies", "current"})
"""Methods of a job's state that give bodies, or entries with them."""
PAST_THE_TYPES = frozenset({"getattr", "hasattr", "setattr", "cast"})
READ_ON_LINE = re.compile(rf"\.body\b|\.(?:{'|'.join(sorted(GIVES_BODIES))})\(")
HELD = 0
"""Bodies read past their types in the whole program; this number only falls."""

_Function = ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda
_Scope = _Function | ast.Module


def _is_any(annotation: ast.expr | None) -> bool:
    """Whether a value is said to be anything, or a list of anything; stored fields are not."""
    match annotation:
        case ast.Name(id=name):
            return name == "Any"
        case ast.BinOp(left=left, right=right):
            return _is_any(left) or _is_any(right)
        case ast.Subscript(value=ast.Name(id=name), slice=inside) if name.lower() != "dict":
            parts = inside.elts if isinstance(inside, ast.Tuple) else [inside]
            return any(map(_is_any, parts))
    return False


def _parts(node: ast.AST) -> Iterator[ast.AST]:
    """Every node of one scope, without the functions that stand in it."""
    for inner in ast.iter_child_nodes(node):
        yield inner
        if not isinstance(inner, _Function):
            yield from _parts(inner)


def _reads_body(value: ast.expr, bodies: set[str]) -> bool:
    """Whether an expression is a body, a choice between some, or a list of them."""
    match value:
        case ast.Attribute(attr=name):
            return name == "body"
        case ast.Name(id=name):
            return name in bodies
        case ast.Call(func=ast.Attribute(attr=name)):
            return name in GIVES_BODIES
    return any(_reads_body(one, bodies) for one in _behind(value))


def _behind(value: ast.expr) -> list[ast.expr]:
    """What an expression gives as it is: the choices of a condition, the members of a list."""
    match value:
        case ast.Call(func=ast.Name(id="next" | "list" | "tuple" | "sorted"), args=[first, *_]):
            return [first]
        case ast.Subscript(value=inner):
            return [inner]
        case ast.IfExp(body=one, orelse=other):
            return [one, other]
        case ast.BoolOp(values=values):
            return values
        case ast.ListComp(elt=element) | ast.GeneratorExp(elt=element):
            return [element]
    return []


def _bodies_in(scope: _Scope, outer: set[str]) -> set[str]:
    """Names that stand for a body in a scope, and those of the scopes around it."""
    found = outer | {"body"}
    for node in _parts(scope):
        match node:
            case ast.Assign(targets=[ast.Name(id=name)], value=value):
                read = _reads_body(value, found)
            case ast.AnnAssign(target=ast.Name(id=name), value=ast.expr() as value):
                read = _reads_body(value, found)
            case ast.NamedExpr(target=ast.Name(id=name), value=value):
                read = _reads_body(value, found)
            case ast.For(target=ast.Name(id=name), iter=value):
                read = _reads_body(value, found)
            case ast.comprehension(target=ast.Name(id=name), iter=value):
                read = _reads_body(value, found)
            case _:
                continue
        if read:
            found.add(name)
    return found


def _faults(scope: _Scope, outer: set[str]) -> Iterator[ast.stmt | ast.expr | ast.arg]:
    """Nodes of a scope, and of those in it, that read a body past its type."""
    bodies = _bodies_in(scope, outer)
    if isinstance(scope, _Function):
        arguments = [*scope.args.posonlyargs, *scope.args.args, *scope.args.kwonlyargs]
        yield from (one for one in arguments if one.arg == "body" and _is_any(one.annotation))
    for node in _parts(scope):
        match node:
            case ast.AnnAssign(annotation=told, value=ast.expr() as value) if _is_any(told):
                if _reads_body(value, bodies):
                    yield node
            case ast.Call(func=ast.Name(id=name), args=given) if name in PAST_THE_TYPES:
                if any(_reads_body(one, bodies) for one in given):
                    yield node
        if isinstance(node, _Function):
            yield from _faults(node, bodies)


def past_their_types(text: str) -> list[int]:
    """Lines of a module on which a body is read past its type."""
    told_to_ignore = {
        number
        for number, line in enumerate(text.split("\n"), start=1)
        if "# type: ignore" in line and READ_ON_LINE.search(line)
    }
    return sorted(told_to_ignore | {node.lineno for node in _faults(ast.parse(text), set())})


def test_bodies_are_read_by_their_types() -> None:
    """Each place is listed with its line; the cure is the entry's type, or ``isinstance``."""
    found = [
        f"{path.relative_to(ROOT)}:{line}"
        for path in python_files(*PACKAGES)
        for line in past_their_types(path.read_text(encoding="utf-8"))
    ]
    assert len(found) == HELD, found


@pytest.mark.parametrize(
    "planted",
    [
        "body: Any = entry.body",
        "cut: Any = filed[-1].body if filed else None",
        "cut: PassCut | Any = filed[-1].body",
        "cuts: list[Any] = [entry.body for entry in state.current(CUTS_OF, key)]",
        "surface: Any = state.latest(SURFACE, name)",
        "newest: Any = state.current(PASSES)[-1]",
        "getattr(entry.body, 'pass_id', '')",
        "getattr(state.latest(SURFACE, name), 'lines', ())",
        "getattr(last and last.body, field)",
        "hasattr(entry.body, 'pass_id')",
        "cast(PassCut, entry.body)",
        "cut = entry.body\nprint(getattr(cut, 'pass_id', ''))",
        "for sand in state.bodies(SAND_OF, name):\n    getattr(sand, 'volume_pl')",
        "[getattr(sand, 'volume_pl') for sand in state.bodies(SAND_OF, name)]",
        "def told(body: Any) -> str:\n    return str(body.name)",
        "def told(body: object) -> str:\n    return getattr(body, 'name', '')",
        "def told(entry):\n    cut = entry.body\n    return [lambda one: getattr(cut, one)]",
        "job: Job = state.latest(JOB)  # type: ignore[assignment]",
    ],
)
def test_every_way_past_a_body_s_type_is_caught(planted: str) -> None:
    """A planted fault of each form that the program once had is found."""
    assert past_their_types(planted)


@pytest.mark.parametrize(
    "fine",
    [
        "body = entry.body",
        "cut: PassCut | None = state.latest(PASS, name)",
        "fields: dict[str, Any] = body_fields(old)",
        "def write(body: dict[str, Any]) -> None: ...",
        "getattr(figures, measure)(cut.length_nm)",
        "names: Any = self.names[index.name]",
        "first: Any = layout.terms[0]",
        "isinstance(entry.body, PassCut)",
    ],
)
def test_what_is_typed_or_no_body_is_left_alone(fine: str) -> None:
    """Neither a body that is read by its type nor anything that is no body is called a fault."""
    assert past_their_types(fine) == []
