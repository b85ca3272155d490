"""A page asks by a typed question, never by a text that could be misspelt."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from importlib import import_module

from crewapp.pages.after_rain.ring_forms import FILLED_UP
from crewapp.pages.frame.question_name import FormQuestion, QuestionName
from crewapp.pages.grade.question_fields import CoverQuestion
from tests.house.tree import modules, python_files, syntax

SUBJECTS = {
    "FormQuestion": "form",
    "RingQuestion": "ring",
    "SetupQuestion": "setup",
    "CoverQuestion": "cover",
    "RodPlaceQuestion": "where",
    "LaserQuestion": "laser",
    "ShotsQuestion": "shots",
    "SurfaceQuestion": "plan",
    "TermsQuestion": "terms",
    "ShapeQuestion": "shape",
    "WaterQuestion": "water",
}
"""Subjects as they stand in drafts on tablets: one that is renamed opens no draft of before."""


def texts_that_ask(tree: ast.AST) -> Iterator[str]:
    """Yield what goes to ``ask`` or ``choose`` as a text with a colon, or as one put together."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute):
            continue
        if node.func.attr in {"ask", "choose"}:
            given = [*node.args, *(one.value for one in node.keywords)]
            yield from (ast.unparse(one) for one in given if is_text_of_question(one))


def is_text_of_question(node: ast.AST) -> bool:
    """Whether an argument holds such a text; one that a call takes is that call's matter."""
    if isinstance(node, ast.Call):
        return False
    if isinstance(node, ast.JoinedStr):
        return True
    if isinstance(node, ast.Constant):
        return isinstance(node.value, str) and ":" in node.value
    return any(is_text_of_question(child) for child in ast.iter_child_nodes(node))


def texts_with_a_subject(tree: ast.AST) -> Iterator[str]:
    """Yield the texts of a module that begin as a question does in a draft."""
    leads = tuple(f"{subject}:" for subject in SUBJECTS.values())
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and str(node.value).startswith(leads):
            yield str(node.value)


def test_no_question_is_asked_by_a_text() -> None:
    """The type checker finds a misspelt question, so none is written as a text."""
    found = {
        f"{path.name}: {text}"
        for path in python_files("crewapp")
        for look in (texts_that_ask, texts_with_a_subject)
        for text in look(syntax(path))
    }

    assert found == set()


def test_a_question_asked_by_a_text_is_found() -> None:
    """A text is found as it stands, by its choice or put together; a typed question is not."""
    tree = ast.parse(
        """
page.ask("setup:backsight")
page.choose(f"cover:{name}", "cover")
page.ask("setup:days" if late else "setup:grade")
page.choose(question="cover:wire", back="cover")
page.ask(CoverQuestion("thick:bedding"))
page.ask("shot")
later = "terms:first"
"""
    )

    assert list(texts_that_ask(tree)) == [
        "'setup:backsight'",
        "f'cover:{name}'",
        "'setup:days' if late else 'setup:grade'",
        "'cover:wire'",
    ]
    assert "terms:first" in set(texts_with_a_subject(tree))


def test_each_question_has_its_text_in_drafts() -> None:
    """Every kind of question has the subject that drafts know, and is kept as subject and field."""
    for name in modules():
        if name.startswith("crewapp.pages.") and name.endswith(("_fields", "_name", "_forms")):
            import_module(name)

    assert {kind.__name__: kind.subject for kind in QuestionName.__subclasses__()} == SUBJECTS
    assert str(FormQuestion("cause")) == "form:cause"
    assert str(FILLED_UP) == "ring:up"
    assert str(CoverQuestion("thick:bedding")) == "cover:thick:bedding"
