"""What lies in the ground, frozen, in the local plane; struck readings stand apart."""
