"""Lines laid and staked; none that carries work moves; a stake leads back to its line."""
