"""``python -m crewapp`` is the same as ``crewapp``."""

from crewapp.cli.main import main

if __name__ == "__main__":
    raise SystemExit(main())
