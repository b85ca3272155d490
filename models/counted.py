"""Counts with their noun: 1 entry, 2 entries; the only way in which a count is written."""

from __future__ import annotations


class CountedNoun(int):
    """A whole number that takes the form of the word behind it.

    The word is given as a format: what stands for one, and what for any other number. The
    number itself goes before it; a ``!`` in front leaves it out, for a verb that follows.

    Examples
    --------
    >>> [f"{CountedNoun(n):entry was|entries were} read" for n in (0, 1, 2)]
    ['0 entries were read', '1 entry was read', '2 entries were read']
    >>> "{n:flag|flags}, {n:!this stops|these stop} work".format(n=CountedNoun(1))
    '1 flag, this stops work'
    >>> f"{CountedNoun(7)} or {CountedNoun(7):03}"
    '7 or 007'
    """

    __slots__ = ()

    def __format__(self, words: str) -> str:
        """Return the number with the form that it takes; without forms, as any number."""
        one, is_counted, many = words.partition("|")
        if not is_counted:
            return super().__format__(words)
        word = one.removeprefix("!") if self == 1 else many
        return word if one.startswith("!") else f"{int(self)} {word}"


def with_counts(facts: dict[str, object]) -> dict[str, object]:
    """Return facts for a text, whole numbers among them able to count a word."""
    return {name: CountedNoun(fact) if type(fact) is int else fact for name, fact in facts.items()}
