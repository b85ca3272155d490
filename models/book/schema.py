"""Migration of a book's file to the newest schema in one transaction."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from models.book.file.engine import Access, make_engine
from models.book.steps import APPLICATION_ID, STEPS


def migrate(path: Path, found: int, access: Access, steps: Sequence[Sequence[str]] = STEPS) -> None:
    """Run the steps that the file has not seen yet; all of them hold, or none."""
    engine = make_engine(path, access)
    with engine.connect() as connection:
        connection.exec_driver_sql("BEGIN IMMEDIATE")
        for statements in steps[found:]:
            for statement in statements:
                connection.exec_driver_sql(statement)
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.exec_driver_sql(f"PRAGMA user_version = {len(steps)}")
        connection.commit()
    engine.dispose()
