"""Power cuts and failing storage, simulated: a recorder, a replayer and what they prove."""
