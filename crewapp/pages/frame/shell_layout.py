"""Where the shell puts its parts: tabs on the edge, the strip below, a banner over the page."""

from __future__ import annotations

from typing import Any

from crewapp.kit.keys.tab_bar import FOOT_MM, RAIL_MM
from crewapp.kit.look.palette import EDGE_MM, GAP_MM
from crewapp.kit.look.theme import px

CAUTION_LOW_MM, CAUTION_SIDE_MM = 0.1, 2.5
ABOVE_STRIP_MM = 2.0  # its key stands lower than its rule
Room = tuple[float, float, float, float]


def place_all(shell: Any, is_left_handed: bool) -> None:
    """Place everything; nothing moves when the undo strip or a banner comes.

    A page that logs leaves the strip's room free. A banner lies over the page's
    head, its own key where no other is.
    """
    room = _place_tabs(shell, is_left_handed, _place_caution(shell))
    low = _place_strips(shell, room)
    margin, banner = px(EDGE_MM), shell.banner
    banner.width = room[2] - 2 * margin
    banner.pos = (room[0] + margin, shell.height - margin - banner.height)
    if shell.front:
        shell.page.pos, shell.page.size = (room[0], low), (room[2], shell.height - low)


def _place_caution(shell: Any) -> float:
    """Put the caution at the foot of the glass; return the margin that all else keeps from it.

    One line fits into the margin that touches keep from the edge anyway; for more of them
    everything stands higher.
    """
    caution = shell.caution
    caution.text = shell.page.caution() if shell.front else ""
    caution.width = shell.width - 2 * px(CAUTION_SIDE_MM)
    caution.height = caution.high_for(caution.width)
    caution.pos = (px(CAUTION_SIDE_MM), px(CAUTION_LOW_MM))
    return float(max(px(EDGE_MM), caution.height + px(CAUTION_LOW_MM)))


def _place_tabs(shell: Any, is_left_handed: bool, low: float) -> Room:
    """Put the tabs on the edge; return what is left."""
    margin, tabs = px(EDGE_MM), shell.tabs
    is_wide = shell.width >= shell.height
    rail = px(RAIL_MM if is_wide else FOOT_MM)
    if not is_wide:
        tabs.side = "top"
        tabs.pos, tabs.size = (margin, low), (shell.width - 2 * margin, rail)
        return 0.0, low + rail, shell.width, shell.height - low - rail
    tabs.side = "left" if is_left_handed else "right"
    x = shell.width - margin - rail if is_left_handed else margin
    tabs.pos, tabs.size = (x, low), (rail, shell.height - margin - low)
    left = 0.0 if is_left_handed else margin + rail
    return left, low - margin, shell.width - margin - rail, shell.height - low + margin


def _place_strips(shell: Any, room: Room) -> float:
    """Put notice and undo strip at the foot; return where the page begins."""
    margin = px(EDGE_MM)
    shown = [part for part in (shell.notice, shell.strip) if part.parent is shell]
    if not shown:
        if shell.front and not shell.page.keeps_room:
            return room[1]
        shown = [shell.strip]  # as if it were there
    low = room[1] + (margin if shell.width >= shell.height else px(GAP_MM))
    for part in shown:
        part.pos, part.width = (room[0] + margin, low), room[2] - 2 * margin
        low += part.height + px(ABOVE_STRIP_MM)
    return low - margin
