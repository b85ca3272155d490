"""Words of any kind inside XML, whole: markup is escaped, what XML can't hold is named."""

from __future__ import annotations

import re
from xml.sax.saxutils import escape

from sync.papers.wording.safe_text import code_point

_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_ATTRIBUTE = {'"': "&quot;", "\n": "&#10;", "\t": "&#9;"}


def xml_text(text: str) -> str:
    """Text for the content of an element.

    Examples
    --------
    >>> xml_text("a<b & " + chr(7))
    'a&lt;b &amp; [U+0007]'
    """
    return escape(_allowed(text), {"\r": "&#13;"})


def xml_attribute(text: str) -> str:
    """Text for an attribute in double quotes; line breaks come back as they were."""
    return escape(_allowed(text), {**_ATTRIBUTE, "\r": "&#13;"})


def attributes(**values: str | None) -> str:
    """Attributes of an element in the order given, each with a space before; None is left out."""
    return "".join(
        f' {name}="{xml_attribute(value)}"' for name, value in values.items() if value is not None
    )


def _allowed(text: str) -> str:
    """XML 1.0 has no way to write most control characters, so they are named instead."""
    return _NOT_XML.sub(lambda found: code_point(found.group()), text)
