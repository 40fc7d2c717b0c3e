"""Every calculation says its units, its valid range and its source, and names its parameters by unit."""

import importlib
import inspect
import pkgutil
import typing
from collections.abc import Callable, Iterator

import pytest

import scout.science
from scout.science.units import SUFFIXES

Function = Callable[..., object]


def public_functions() -> Iterator[Function]:
    """Return every public function of scout.science, each once."""
    for found in pkgutil.walk_packages(scout.science.__path__, "scout.science."):
        module = importlib.import_module(found.name)
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield function


def holds_floats(annotation: object) -> bool:
    """Return whether a parameter so annotated carries floats; functions handed in do not count."""
    if annotation is float:
        return True
    if typing.get_origin(annotation) is Callable or typing.get_origin(annotation) is None:
        return False
    return any(holds_floats(part) for part in typing.get_args(annotation))


def float_parameters(function: Function) -> list[str]:
    hints = typing.get_type_hints(function)
    return [name for name in inspect.signature(function).parameters if holds_floats(hints[name])]


def ends_in_a_unit(name: str) -> bool:
    return any(name.endswith(f"_{suffix}") for suffix in SUFFIXES)


def faults_of(function: Function) -> list[str]:
    """Return what is missing, in words; empty when all is there."""
    text, floats = inspect.getdoc(function) or "", float_parameters(function)
    wanted = ["Units:", "Valid:", "Source:"] if floats else []
    if floats and "raise ValueError" in inspect.getsource(function):
        wanted.append("Raises:")
    lines = [line.strip() for line in text.splitlines()]
    faults = [f"no line {label}" for label in wanted if not any(line.startswith(label) for line in lines)]
    faults += [f"{name} does not end in a unit" for name in floats if not ends_in_a_unit(name)]
    return faults if text else ["no docstring", *faults]


@pytest.mark.parametrize("function", public_functions(), ids=lambda f: f"{f.__module__}.{f.__name__}")
def test_a_calculation_is_documented(function: Function) -> None:
    assert faults_of(function) == []


def test_the_search_finds_the_calculations() -> None:
    found = {function.__name__ for function in public_functions()}
    assert {"heat_index_c", "single_sine_cd", "wilson_interval", "days_at_least", "check_day"} <= found


def test_the_check_itself_notices_what_is_missing() -> None:
    def no_words(temperature: float, days: list[float | None]) -> float:
        raise ValueError(temperature, days)

    def in_order(t_c: float, on_d: tuple[float, float], ask: Callable[[float], float]) -> float:
        """Return it.

        Units: °C, days.
        Valid: all.
        Source: none, an example.
        """
        return t_c + sum(on_d) + ask(t_c)

    assert faults_of(no_words) == [
        "no docstring",
        "no line Units:",
        "no line Valid:",
        "no line Source:",
        "no line Raises:",
        "temperature does not end in a unit",
        "days does not end in a unit",
    ]
    assert faults_of(in_order) == []
