"""The end of a demo day: hours, scribbles for signatures, closing."""

from __future__ import annotations

import math
import random

from crewapp.commands.day import CloseDay, LogHours, SignDay, Strokes
from crewapp.demo.typist import Typist
from crewapp.job.dispatch import do
from models.entries.kind_names import PERSON

FOREMAN, OWNER = "Wren Okonjo-Hale", "Ilse Varga-Thorne"


def book_hours(
    typist: Typist, worked: dict[str, int], *, idle: dict[str, int] | None = None
) -> None:
    """Write down hours, in minutes, of people and machines."""
    people = set(typist.job.state.every_name(PERSON))
    for who, run_min in worked.items():
        typist.wait(6, 15)
        of = "person" if who in people else "machine"
        do(typist.job, LogHours(of=of, who=who, run_min=run_min, idle_min=(idle or {}).get(who, 0)))


def close(typist: Typist, *, day: str = "", owner: bool = True) -> None:
    """Sign a day as its foreman, have the owner sign for the sheet, and close it."""
    day = day or typist.day
    typist.wait(60, 180)
    sign(typist, day, "foreman", FOREMAN, "true_record")
    if owner:
        typist.wait(60, 240)
        sign(typist, day, "owner", OWNER, "received")
    typist.wait(10, 20)
    do(typist.job, CloseDay(day=day))


def sign(typist: Typist, day: str, role: str, name: str, meaning: str) -> None:
    """Sign for a day with a name's own scribble."""
    do(typist.job, SignDay(day=day, role=role, name=name, meaning=meaning, strokes=scribble(name)))


def scribble(name: str) -> Strokes:
    """Invent pen strokes for a name: a few loops and a bar, always the same for it."""
    chance = random.Random(name)
    strokes = []
    left = 60
    for _ in name.split():
        loops, width = chance.randint(3, 5), chance.randint(240, 330)
        tall = chance.randint(50, 95)
        points = []
        for step in range(loops * 10 + 1):
            turn = 2 * math.pi * step / 10
            x = left + width * step / (loops * 10) + 16 * math.sin(turn)
            y = 130 + tall * (1 - step / (loops * 14)) * math.sin(turn + 0.7)
            points.append((round(x), round(y + chance.uniform(-4, 4))))
        strokes.append(tuple(points))
        left += width + 40
    strokes.append(tuple((50 + step * 90, 30 + step * 5 % 13) for step in range(10)))
    return tuple(strokes)
