"""Writes frozen/<version>.db with rows in every table, once, when a version of the tables is released.

Run as `python tests/store/make_frozen.py`. A released file is never made again: it stands for a grower's own.
"""

import importlib.util
import sqlite3
import sys
from contextlib import closing
from pathlib import Path

HERE = Path(__file__).resolve().parent


def main() -> None:
    """Make the file of today's version, or stop when it is there."""
    spec = importlib.util.spec_from_loader("store_tests", loader=None, is_package=True)
    assert spec
    package = importlib.util.module_from_spec(spec)
    package.__path__ = [str(HERE)]
    sys.modules["store_tests"] = package
    from store_tests import conftest, samples  # type: ignore[import-not-found]

    from scout.store.database import back_up, ensure_schema, open_engine
    from scout.store.history import transaction
    from scout.store.tables_garden import Bed
    from scout.store.undo import undo_last
    from scout.store.version import SCHEMA_VERSION

    kept = HERE / "frozen" / f"{SCHEMA_VERSION}.db"
    if kept.exists():
        sys.exit(f"{kept} is there already; a released version is never made again.")
    kept.parent.mkdir(exist_ok=True)
    draft = kept.with_suffix(".draft")
    ensure_schema(draft)
    engine = open_engine(draft)
    farm = conftest.Farm(engine, conftest.stamp(), draft)
    with transaction(engine, farm.stamp) as tx:
        conftest.furnish(tx, farm)
    with transaction(engine, farm.stamp) as tx:
        samples.add_one_of_each(tx, farm)
    farm.change(Bed, farm.bed, name="Long bed")
    farm.change(Bed, farm.bed, note="taken back")
    undo_last(engine, farm.stamp)
    engine.dispose()
    back_up(draft, kept)
    draft.unlink()
    with closing(sqlite3.connect(kept)) as connection:
        connection.execute("PRAGMA page_size = 512")  # a tenth of the size, the same garden
        connection.execute("VACUUM")


if __name__ == "__main__":
    main()
