"""Starts the command line: ``crewapp``, and ``python -m crewapp``."""

import signal


def main() -> int:
    """Run the command line; until it is loaded, Ctrl-C ends the program without a word.

    Python would show where in its imports it was.
    """
    is_python_s_own = signal.getsignal(signal.SIGINT) is signal.default_int_handler
    if is_python_s_own:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
    from crewapp.cli.main import main as run

    if is_python_s_own:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    return run()


if __name__ == "__main__":
    raise SystemExit(main())
