"""Rules of the knowledge check about the cases that try it; they are silent where no cases are at hand."""

import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import file_of


def every_crop_has_a_healthy_case(k: Knowledge) -> Iterator[str]:
    """Each crop is tried on a planting with nothing wrong, so that health is never called a disease unseen."""
    cases = _cases(k.folder)
    healthy = {crop for crop, case in cases if case.get("healthy")}
    if cases:
        yield from (f"crops/{crop}.toml: no healthy case; write one." for crop in k.crops if crop not in healthy)


def every_cause_has_a_case(k: Knowledge) -> Iterator[str]:
    """Each cause in use is what some case describes."""
    cases = _cases(k.folder)
    named = {key for _, case in cases for key in (*case.get("first", ()), *case.get("top3", ()), case["file"])}
    for cause in k.causes.values():
        if cases and cause.status != "retired" and cause.id not in named:
            yield f"{file_of(cause)}: no case describes it; write one from its pages before you run the ranking."


@cache
def _cases(folder: Path) -> tuple[tuple[str, dict[str, Any]], ...]:
    """Return crop and content of every case beside the knowledge; none in a program that was installed."""
    cases = folder.parent / "tests" / "knowledge" / "cases"
    files = sorted(cases.glob("*/*.toml")) if cases.is_dir() else []
    return tuple((file.parent.name, tomllib.loads(file.read_text("utf-8")) | {"file": file.stem}) for file in files)
