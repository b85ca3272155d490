"""Everything that is tested, in the shape of the three packages, and the rules of the house."""
