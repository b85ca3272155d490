"""HTML and SVG made of elements: every text goes in escaped, so that none becomes markup."""

from __future__ import annotations

from html import escape

from sync.papers.wording.safe_text import clean


class Markup(str):
    """Text that is markup already: made by :func:`tag` or :func:`style` alone."""

    __slots__ = ()


def tag(name: str, *inner: str, **attributes: str | int | float) -> Markup:
    """Element of HTML or SVG, with attributes named as in Python: ``class_``, ``stroke_width``.

    Examples
    --------
    >>> tag("p", "5 < 6 & ", tag("b", '"<script>"'), class_="a")
    '<p class="a">5 &lt; 6 &amp; <b>&quot;&lt;script&gt;&quot;</b></p>'
    """
    told = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{_text(str(value))}"'
        for key, value in attributes.items()
    )
    return Markup(f"<{name}{told}>{join_markup(*inner)}</{name}>")


def join_markup(*parts: str) -> Markup:
    """Markup and text one after the other; text is escaped."""
    return Markup("".join(part if isinstance(part, Markup) else _text(part) for part in parts))


def style(rules: str) -> Markup:
    """A sheet of style rules of our own; never anything a user typed."""
    return Markup(f"<style>{rules}</style>")


def document(head: Markup, body: Markup, language: str = "en") -> bytes:
    """A whole page as bytes."""
    return f'<!DOCTYPE html>\n<html lang="{language}">{head}{body}</html>\n'.encode()


def meta(**attributes: str) -> Markup:
    """An element of the head that has no inside."""
    told = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{_text(value)}"'
        for key, value in attributes.items()
    )
    return Markup(f"<meta{told}>")


def _text(text: str) -> str:
    return escape(clean(text), quote=True)
