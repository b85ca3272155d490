"""Page of the tablet's settings: whose it is, language, units, the true millimetre."""
