"""What a command prints, on any console and for programs; what stops it is a sentence."""
