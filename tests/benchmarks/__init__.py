"""Benchmarks: how long a thing takes beside a named baseline, in one run.

Run all of them, and print the ratios at the end::

    .venv/bin/python -m pytest tests/benchmarks --benchmark-only

They are left out of every other run. A benchmark says what it is held against by a mark::

    @pytest.mark.ratio(to="test_bare_insert", at_most=1.5)
    def test_ink_one_probe(benchmark): ...

    @pytest.mark.limit(at_most_ms=1000)
    def test_open_a_long_job(benchmark): ...

``to`` is the name of another test of the same run, with its parameters in brackets where it
has some (``test_check_one[1000]``). Both marks may stand together, and on single parameters
through ``pytest.param(..., marks=...)``. Medians are compared. Nothing fails when an aim is
missed: times depend on the machine, and the line says so.
"""
