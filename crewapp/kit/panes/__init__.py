"""How parts lie on a page, upright or across."""
