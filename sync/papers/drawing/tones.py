"""Printed colours: what each tone looks like on paper; the screen's palette reads this table.

Paper is lit by whatever lights the page, so its second ink and its light band may be fainter
than on glass in the sun; all other tones are the same in both.
"""

from __future__ import annotations

from sync.papers.drawing.primitives import Tone

Rgb = tuple[int, int, int]

PRINT_TONES: dict[Tone, Rgb] = {
    Tone.INK: (0, 0, 0),
    Tone.RULE: (89, 89, 89),
    Tone.BAND: (222, 222, 222),
    Tone.PAPER: (255, 255, 255),
    Tone.PLANNED: (70, 70, 70),
    Tone.TODAY: (0, 83, 135),
    Tone.OK: (0, 83, 135),
    Tone.CHECK: (230, 159, 0),
    Tone.OUT: (155, 36, 35),
    Tone.ELECTRIC: (200, 16, 46),
    Tone.GAS: (255, 222, 0),
    Tone.COMMUNICATION: (232, 110, 0),
    Tone.WATER: (0, 76, 170),
    Tone.RECLAIMED: (128, 32, 144),
    Tone.SEWER: (0, 128, 64),
}
"""Printed colours; each still differs from its neighbours in grey, and none stands alone."""


def hex_code(tone: Tone) -> str:
    """Return a tone's colour as ``#RRGGBB``.

    Examples
    --------
    >>> hex_code(Tone.TODAY)
    '#005387'
    """
    return "#{:02X}{:02X}{:02X}".format(*PRINT_TONES[tone])
