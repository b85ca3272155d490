"""Cautions for papers that a crew digs by, in English and in Spanish.

They name the rule where there is one; local codes and a competent person come before them
all. A competent person looks at a trench each day before anybody enters it and after rain
(29 CFR 1926.651(k)(1)); spoil and machines keep 2 ft from its edge (1926.651(j)(2)); from
4 ft on there is a way out within 25 ft (1926.651(c)(2)); from 5 ft on it is protected unless
it is stable rock throughout (1926.652(a)(1)). Basins and manholes are confined spaces
(1910.146, 1926 Subpart AA). Dry sand is silica (1926.1153).
"""

from __future__ import annotations

DESIGN = (
    "An estimate, not a design: the design of drainage belongs to a licensed engineer.",
    "Una estimación, no un diseño: el diseño del drenaje corresponde a un ingeniero con licencia.",
)
LOCATE = (
    "Before a blade goes down: locate ticket in date, marks looked at, private lines asked for, "
    "irrigation heads flagged. Dig by hand near marks.",
    "Antes de bajar la cuchilla: permiso de marcación vigente, marcas revisadas, líneas privadas "
    "preguntadas, aspersores señalados. Excave a mano cerca de las marcas.",
)
BLADES = (
    "Stop the machine and wait until its blades stand still before anybody clears them. "
    "Keep people away from it.",
    "Pare la máquina y espere a que las cuchillas queden quietas antes de limpiarlas. "
    "Que nadie se acerque.",
)
DUST = (
    "Dry sand and cut concrete give silica dust, which harms lungs: wet them, stay upwind, "
    "wear a mask that fits.",
    "La arena seca y el hormigón cortado dan polvo de sílice, que daña los pulmones: "
    "mójelos, póngase de espaldas al viento, use mascarilla ajustada.",
)
TRENCH = (
    "Nobody enters a trench that is not protected. At 5 ft (1.5 m) or deeper it is sloped, "
    "shored or shielded unless it is stable rock throughout; at any depth a competent person "
    "looks at it each day and after rain. From 4 ft (1.2 m) on a ladder stands within 25 ft "
    "(7.6 m); spoil lies 2 ft (0.6 m) back (29 CFR 1926.651, 1926.652).",
    "Nadie entra en una zanja sin protección. A 5 ft (1.5 m) o más va con talud, entibada o con "
    "caja, salvo que todo sea roca firme; a cualquier profundidad una persona competente la "
    "revisa cada día y tras la lluvia. Desde 4 ft (1.2 m), escalera a menos de 25 ft (7.6 m); "
    "la tierra, a 2 ft (0.6 m) del borde (29 CFR 1926.651, 1926.652).",
)
BAD_AIR = (
    "Never enter a basin, manhole or large pipe: its air can kill at once and gives no smell. "
    "Only with a permit, tested air and a watch outside (29 CFR 1910.146, 1926 Subpart AA).",
    "No entre nunca en una arqueta, pozo o tubo grande: su aire mata en el acto y no huele. "
    "Solo con permiso, aire medido y vigía afuera (29 CFR 1910.146, 1926 Subpart AA).",
)
LOCAL = (
    "Local codes and a competent person on the spot come before this paper.",
    "Los códigos locales y la persona competente en el lugar mandan sobre este papel.",
)

DUST_AND_LOCAL = (f"{DUST[0]} {LOCAL[0]}", f"{DUST[1]} {LOCAL[1]}")

TAKEOFF = (DESIGN, LOCATE, BLADES, TRENCH, BAD_AIR, DUST_AND_LOCAL)
STAKEOUT = (LOCATE, BLADES, TRENCH, BAD_AIR, DUST_AND_LOCAL)


def in_both(cautions: tuple[tuple[str, str], ...]) -> tuple[str, ...]:
    """Return cautions as they are printed: all in English, then all in Spanish."""
    return tuple(caution[language] for language in (0, 1) for caution in cautions)
