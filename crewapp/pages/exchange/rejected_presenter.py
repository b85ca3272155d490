"""Explains entries that an exchange rejected, and what would admit them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from crewapp.pages.exchange.view import RejectedRow
from crewapp.words.translate import say, translate_later
from models.entries.tablet_code import code_of
from sync.exchange.exchange_log import RejectedSegment
from sync.segments.file_name import SegmentName

GAP = "exchange.gap"
WHYS = {
    "exchange.unknown_tablet": translate_later(
        "That tablet is not on this job's list. If it is one of the crew's, add it by the code "
        "that its screen shows; then its entries come in."
    ),
    "exchange.revoked_tablet": translate_later(
        "That tablet was taken off the list, and these came after. Add it again to take them in."
    ),
    GAP: translate_later(
        "Entries before these are missing. They come in when the tablet that wrote them, or "
        "any that has them, has exchanged. They can also be let in without."
    ),
    "exchange.fork_gap": translate_later(
        "They go on from entries that are not here. If that tablet was put back from a backup, "
        "the others are still to come."
    ),
    "exchange.earlier_job": translate_later(
        "One of them would put another beginning before the job's own. They stay out. "
        "Ask whoever has that tablet."
    ),
    "exchange.too_much_waits": translate_later(
        "They were left in the store: too much from unknown tablets waits here already. Add "
        "those tablets if they are the crew's, or clear the store of what they wrote."
    ),
    "exchange.clash": translate_later(
        "One of them says something else than the same entry here. None of them was taken in. "
        "Ask whoever has that tablet."
    ),
    "store.not_there": translate_later(
        "The store showed them and did not give them. They are asked for again at each exchange."
    ),
    "segment.bytes": translate_later(
        "The copy is cut short or damaged. It is read again at each exchange; a whole one comes "
        "in by itself."
    ),
    "segment.too_new": translate_later(
        "A newer version of the app wrote them. They are kept and passed on. Install that version "
        "to read them."
    ),
    "segment.forged": translate_later(
        "They were not signed by the tablet in whose name they come. Somebody else made them; "
        "they stay out."
    ),
    "segment.chain": translate_later(
        "One of them was altered after it was written. They stay out."
    ),
    "segment.other_job": translate_later("They belong to another job. They stay out."),
}
OTHER = translate_later("They are not in the form that a tablet writes. They stay out.")


def rejected_rows(
    aside: Iterable[RejectedSegment], names: Mapping[str, str]
) -> tuple[RejectedRow, ...]:
    """Return one row for each tablet and reason, its numbers put together."""
    found: dict[tuple[str, str], list[tuple[int, int]]] = {}
    waiting: dict[tuple[str, str], bool] = {}
    for one in aside:
        name = SegmentName.find(one.name)
        code = code_of(name.stream) if name else ""
        key = (code, one.code)
        found.setdefault(key, []).append((name.first, name.last) if name else (0, 0))
        waiting[key] = one.is_retryable
    rows = []
    for (code, reason), numbers in found.items():
        who = names.get(code, "") or code or say("a tablet")
        first, last = min(numbers)[0], max(last for _, last in numbers)
        title = say("{who}: entries {first} to {last}", who=who, first=first, last=last)
        why = say(WHYS.get(reason, OTHER))
        rows.append(RejectedRow(title, why, waiting[(code, reason)], reason == GAP))
    return tuple(rows)
