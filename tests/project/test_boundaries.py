"""What is really loaded, and when: a fresh interpreter for each question."""

import subprocess
import sys

import pytest

HEAVY = ("sqlmodel", "sqlalchemy", "alembic", "numpy", "PIL", "jinja2", "pydantic", "typer", "icalendar", "rapidfuzz")


def loaded(statement: str) -> set[str]:
    code = f"import sys; {statement}; print('\\n'.join(sys.modules))"
    out = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout
    return {line.split(".")[0] for line in out.split()} | set(out.split())


def test_the_first_screen_waits_for_no_slow_library() -> None:
    modules = loaded("import scout.cli, scout.cli.opening, scout.tui.app, scout.tui.screens.today")
    assert not modules & set(HEAVY)
    assert "textual" in modules


@pytest.mark.parametrize("module", ["scout.cli", "scout.paths", "scout.settings", "scout.errors", "scout.plain"])
def test_the_bottom_layers_load_almost_nothing(module: str) -> None:
    assert not loaded(f"import {module}") & {*HEAVY, "textual", "rich"}


def test_science_needs_the_standard_library_alone() -> None:
    names = "counts, degree_days, efficacy, epidemic, heat_index, humidity, sampling, sowing, spells, windows"
    assert not loaded(f"from scout.science import {names}") & {*HEAVY, "textual", "rich"} - {"numpy"}


def test_the_diagnosis_reaches_no_screen_and_no_store() -> None:
    modules = loaded("from scout.diagnosis import rank, next_look, words, conditions, advise")
    assert not modules & {"textual", "rich", "sqlmodel", "sqlalchemy", "sqlite3", "PIL", "typer"}


def test_the_program_knows_its_version_without_loading_the_store() -> None:
    assert not loaded("import importlib.metadata as m; m.version('bedwalk')") & set(HEAVY)
