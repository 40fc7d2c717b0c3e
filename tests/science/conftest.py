"""Tables from publications: one test run a row, and a tolerance from the printed digits."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

_TABLES = Path(__file__).parent / "tables"


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "table(name): run once for each row of tests/science/tables/<name>.csv")


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    mark = metafunc.definition.get_closest_marker("table")
    if mark is not None:
        rows = read_table(mark.args[0])
        metafunc.parametrize("row", rows, ids=["-".join(row.values())[:60] for row in rows])


def read_table(name: str) -> list[dict[str, str]]:
    """Return the rows of a table; its first line is the source, which must be there."""
    first, *lines = (_TABLES / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    assert first.startswith("# ") and len(first) > 20, f"{name}.csv does not begin with its source"
    rows = list(csv.DictReader(lines, strict=True))
    assert rows, f"{name}.csv has no rows"
    return rows


@pytest.fixture(scope="session")
def table() -> Callable[[str], list[dict[str, str]]]:
    return read_table


@pytest.fixture(scope="session")
def printed() -> Callable[[str], object]:
    """Return what turns "35.6" into "equal to 35.6 within half a unit of the last printed digit"."""

    def within_half_a_unit(text: str) -> object:
        digits = len(text.partition(".")[2])
        return pytest.approx(float(text), abs=0.5 * 10.0**-digits * (1.0 + 1e-6), rel=0)

    return within_half_a_unit
