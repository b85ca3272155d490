"""The parts that screens are made of; each module holds one and runs without a screen."""
