"""Features in the ground as frozen values in the local plane; struck readings apart."""
