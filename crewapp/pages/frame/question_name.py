"""Name of a question that a page asks by its pad or its list: a subject, and a field of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class QuestionName:
    """Name of a question; as a text, ``subject:field``, it stands in drafts.

    A subclass declares one subject with all its fields, so that the type checker
    finds a misspelt one where it is asked.
    """

    subject: ClassVar[str] = ""
    field: str

    def __str__(self) -> str:
        """Return the text that a draft keeps."""
        return f"{self.subject}:{self.field}"


@dataclass(frozen=True, slots=True)
class FormQuestion(QuestionName):
    """Question of the form that is filled in; its fields are those of the form's steps."""

    subject: ClassVar[str] = "form"
