"""What the machine can do, each ability a port; what it can't do is a sentence."""
