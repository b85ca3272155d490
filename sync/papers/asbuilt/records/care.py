"""Advice on care of the work, plain and general; local practice goes first."""

from __future__ import annotations

CARE_TITLE = "How to flush it and look after it"
CARE = (
    "General advice. Local codes, the owner's own practice and whoever designed the work come "
    "before it.",
    "Keep this record where the next contractor will look for it, with the data files beside it. "
    "Write later work into it: a repair that nobody wrote down undoes the record.",
    "Do not core, spike, stake, plant or dig over a line before finding it by its ties and "
    "opening the ground by hand. Have public utilities marked before any digging.",
    "Outlet: look at it in spring, in autumn and after the first heavy rains. Keep it open, "
    "clear of grass and silt, its guard in place, and where a mower will not strike it.",
    "Watch it run: during a steady rain water should come soon and clear. Cloudy water for long "
    "after the first weeks is soil getting in somewhere: look for a sunken place.",
    "Flushing: from the high end, or from a riser, with clean water at garden pressure, until it "
    "runs clear at the outlet; catch what comes where it may not go into a stream. High pressure "
    "washes out surrounds of sand and gravel. Write the day and what came out.",
    "Low places in a pipe hold silt: flush those named in this record first and most often.",
    "Sand slits: keep their tops open. Top-dress with sand no finer than what is in them, never "
    "with soil; take a cap of thatch or silt off. Top up where sand has sunk below the turf.",
    "Traffic: keep heavy machines off wet ground over lines. Drive across lines, not along them.",
    "If a place stays wet: look whether the slits still reach the surface, then whether the pipe "
    "runs, then dig. Compare with how it cleared when it was new.",
)
SAFETY = (
    "Expose marked utilities by hand before a blade comes near.",
    "Nobody enters a trench that is not protected.",
    "Nobody climbs into a basin or a manhole to look at a pipe: bad air in it kills. Look and "
    "flush from above.",
    "Dry sand: silica dust harms lungs; wet it, keep upwind, wear a mask that fits.",
    "Stop machines before clearing a blade; keep people away.",
    "Local codes come before this record.",
)
