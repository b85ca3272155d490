"""Flow of water; every formula names its limits and source; an estimate is called so."""
