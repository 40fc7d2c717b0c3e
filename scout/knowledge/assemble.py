"""Texts of the knowledge files → one checked Knowledge; errors name file, line where known, and key."""

import re
import tomllib
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, TypeAdapter, ValidationError

from scout.errors import KnowledgeError
from scout.knowledge import cause_file, control_file, crop_file, schema, vocabulary
from scout.knowledge.base import Knowledge

M = TypeVar("M", bound=BaseModel)
Raw = dict[str, dict[str, Any]]
"""File path relative to the folder, with forward slashes → its tables."""


def assemble(folder: Path, digest: str, texts: dict[str, str]) -> Knowledge:
    """Return the checked knowledge; texts: file path relative to the folder, with forward slashes → what it holds.

    Raises KnowledgeError naming file, line and key.
    """
    build = _Builder({name: _parse(name, text) for name, text in texts.items()}, texts)
    sources = build.table("sources.toml", schema.Source)
    symptoms, part_of = build.symptoms()
    controls, control_kind = build.controls()
    conditions = build.one("conditions.toml", vocabulary.ConditionFile)
    knowledge = Knowledge(
        folder=folder,
        hash=digest,
        sources=sources,
        scales=build.one("scales.toml", schema.ScaleFile),
        crops=build.by_file("crops/", crop_file.Crop),
        symptoms=symptoms,
        part_of=part_of,
        circumstances=build.listed("circumstances.toml", "circumstances", vocabulary.Circumstance),
        patterns=build.rows("patterns.toml", "patterns", cause_file.Pattern),
        conditions=_by_id("conditions.toml", conditions.conditions),
        seasons={season.id: season for season in conditions.seasons},
        causes={key: cause.citing_all() for key, cause in build.by_file("causes/", cause_file.Cause).items()},
        controls=controls,
        control_kind=control_kind,
        cautions=build.table("cautions.toml", control_file.Caution),
        stops=tuple(build.listed("stops.toml", "stops", control_file.Stop).values()),
        ties=tuple(build.listed("ties.toml", "ties", control_file.Tie).values()),
        enemies=build.listed("enemies.toml", "enemies", control_file.Enemy),
        word_groups=build.one("words.toml", vocabulary.WordFile).groups,
        action_marks=build.listed("action_marks.toml", "marks", control_file.ActionMark),
    )
    build.refuse_strangers()
    return knowledge


def _parse(name: str, text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise KnowledgeError(f"{name}: {error}{_written_there(text, str(error))}.") from None


def _written_there(text: str, message: str) -> str:
    """Return what stands on the line that a TOML error names, so that the key can be found."""
    found = re.search(r"at line (\d+)", message)
    lines = text.splitlines()
    if found is None or int(found[1]) > len(lines):
        return ""
    return f": {lines[int(found[1]) - 1].strip()[:60]!r}"


def _by_id(name: str, entries: Iterable[M]) -> dict[str, M]:
    found: dict[str, M] = {}
    for entry in entries:
        key = str(entry.id)  # type: ignore[attr-defined]
        if key in found:
            raise KnowledgeError(f"{name}: the id {key!r} stands twice; ids are never reused.")
        found[key] = entry
    return found


class _Builder:
    """Turns raw tables into models and remembers which files were used."""

    def __init__(self, raw: Raw, texts: dict[str, str]) -> None:
        self._raw = raw
        self._texts = texts
        self._used: set[str] = set()

    def _take(self, name: str) -> dict[str, Any]:
        self._used.add(name)
        if name not in self._raw:
            raise KnowledgeError(f"{name}: this file is missing from the knowledge folder.")
        return self._raw[name]

    def _checked(self, name: str, check: Callable[[], M], root: tuple[str | int, ...] = ()) -> M:
        try:
            return check()
        except ValidationError as error:
            raise KnowledgeError(_sentence(name, self._texts.get(name, ""), error, root)) from None

    def one(self, name: str, model: type[M]) -> M:
        tables = self._take(name)
        return self._checked(name, lambda: model.model_validate(tables))

    def table(self, name: str, model: type[M]) -> dict[str, M]:
        found = {}
        for key, values in self._take(name).items():
            found[key] = self._checked(name, lambda v=values: model.model_validate(v), (key,))  # type: ignore[misc]
        return found

    def listed(self, name: str, key: str, model: type[M]) -> dict[str, M]:
        return _by_id(name, self.rows(name, key, model))

    def rows(self, name: str, key: str, model: type[M]) -> tuple[M, ...]:
        tables = self._take(name)
        if set(tables) - {key}:
            stray = sorted(set(tables) - {key})[0]
            raise KnowledgeError(f"{name}: unknown key {stray!r}; the file holds [[{key}]] tables only.")
        adapter: TypeAdapter[tuple[M, ...]] = TypeAdapter(tuple[model, ...])  # type: ignore[valid-type]
        try:
            return adapter.validate_python(tables.get(key, ()))
        except ValidationError as error:
            raise KnowledgeError(_sentence(name, self._texts.get(name, ""), error, (key,))) from None

    def by_file(self, prefix: str, model: type[M]) -> dict[str, M]:
        found: dict[str, M] = {}
        for name in self._raw:
            if not name.startswith(prefix):
                continue
            entry = self.one(name, model)
            key = str(entry.id)  # type: ignore[attr-defined]
            if Path(name).stem != key:
                raise KnowledgeError(f"{name}: id is {key!r}; the file must be named {key}.toml.")
            if key in found:
                raise KnowledgeError(f"{name}: the id {key!r} stands twice; ids are never reused.")
            found[key] = entry
        return found

    def symptoms(self) -> tuple[dict[str, vocabulary.Symptom], dict[str, schema.Part]]:
        symptoms: dict[str, vocabulary.Symptom] = {}
        parts: dict[str, schema.Part] = {}
        for name in [n for n in self._raw if n.startswith("symptoms/")]:
            file = self.one(name, vocabulary.SymptomFile)
            for key, symptom in _by_id(name, file.symptoms).items():
                if key in symptoms or not key.startswith(file.part + "."):
                    raise KnowledgeError(f"{name}: the id {key!r} must be new and begin with '{file.part}.'.")
                symptoms[key], parts[key] = symptom, file.part
        return symptoms, parts

    def controls(self) -> tuple[dict[str, control_file.Control], dict[str, schema.ControlKind]]:
        controls: dict[str, control_file.Control] = {}
        kinds: dict[str, schema.ControlKind] = {}
        for name in [n for n in self._raw if n.startswith("controls/")]:
            file = self.one(name, control_file.ControlFile)
            for key, control in _by_id(name, file.controls).items():
                if key in controls:
                    raise KnowledgeError(f"{name}: the id {key!r} stands twice; ids are never reused.")
                controls[key], kinds[key] = control, file.kind
        return controls, kinds

    def refuse_strangers(self) -> None:
        strangers = sorted(set(self._raw) - self._used)
        if strangers:
            raise KnowledgeError(f"{strangers[0]}: no part of the knowledge base reads this file; move or remove it.")


def _sentence(name: str, text: str, error: ValidationError, root: tuple[str | int, ...]) -> str:
    # a key that does not exist is told before one that is missing: it is usually the same one, mistyped
    first = min(error.errors(), key=lambda one: one["type"] != "extra_forbidden")
    loc = (*root, *first["loc"])
    line = _line_of(text, loc)
    place = f"{name}, line {line}" if line else name
    key = ".".join(str(part) for part in loc) or "the file"
    more = f" (and {error.error_count() - 1} more)" if error.error_count() > 1 else ""
    return f"{place}: {key}: {first['msg']}{more}."


def _line_of(text: str, loc: tuple[str | int, ...]) -> int | None:
    """Return the 1-based line of the key that `loc` names: tables are found first, then the key inside."""
    lines = text.splitlines()
    start, found = 0, None
    for position, part in enumerate(loc):
        if isinstance(part, int):
            continue
        nth = loc[position + 1] if position + 1 < len(loc) and isinstance(loc[position + 1], int) else 0
        pattern = re.compile(rf"\s*(\[+\s*([\w.]+\.)?{re.escape(part)}\s*\]+|{re.escape(part)}\s*=)")
        hits = [n for n in range(start, len(lines)) if pattern.match(lines[n])]
        if not hits:
            continue
        start = found = hits[min(int(nth), len(hits) - 1)]
    return None if found is None else found + 1
