"""A11: a keep-out that a file draws and that would be lost without notice."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import DrawnKeepOut, PlanView, first_lines
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for source in view.sources:
        drawn = _drawn(source)
        lost = [name for name in drawn if name not in (*source.used, *source.left_out)]
        if lost:
            yield PlanFault(
                RULE.id,
                "lost",
                ("layout", source.surface_id),
                "keep_outs",
                source.file,
                {
                    "what": source.file,
                    "count": len(drawn),
                    "cuts": len(source.used),
                    "lines": first_lines(lost, 20),
                    "name": lost[0],
                },
            )
        unknown = [name for name in source.left_out if name not in drawn]
        if unknown:
            yield PlanFault(
                RULE.id,
                "not_drawn",
                ("layout", source.surface_id),
                "keep_outs",
                f"{source.file} left out",
                {
                    "what": source.file,
                    "name": first_lines(unknown),
                    "lines": first_lines(drawn, 20) or "nothing",
                },
            )


def _drawn(source: DrawnKeepOut) -> list[str]:
    """Names of all that a file draws; points without a radius are told by A10 one by one."""
    points = [name for name, _ in source.points]
    if source.radius_nm is None:
        points = [name for name in points if name in source.left_out]
    return [*source.outlines, *points, *source.others]


RULE = Rule(
    id="A11",
    problem="A file draws something to keep out of that is not in the plan.",
    why="What is dropped without a word is cut through: a cable, a valve, a head.",
    cure="Draw it as a closed outline or a point, or leave it out by its name.",
    sayings={
        "lost": FaultTemplate(
            Level.REFUSE,
            "{what} draws {count} things and {cuts} of them become keep-outs; these would be "
            "lost: {lines}.",
            "closed outlines, or points with a radius; or each of the rest left out by its name "
            '(--leave-out "{name}")',
        ),
        "not_drawn": FaultTemplate(
            Level.REFUSE,
            "{name} was to be left out, and {what} draws nothing of that name.",
            "a name that it draws: {lines}",
        ),
    },
    kinds=(),
    examine=_examine,
)
