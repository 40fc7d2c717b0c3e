"""Folder of TOML files → one checked Knowledge, through a compiled copy where one fits."""

import gc
import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from pydantic import TypeAdapter

from scout.errors import KnowledgeError
from scout.knowledge.assemble import assemble
from scout.knowledge.base import Knowledge

_SCHEMA_VERSION = 1
_FORM = 2
"""Of the compiled copy; told in its name, since an older program passes over what it does not know."""


def load_knowledge(folder: Path, cache: Path | None = None) -> Knowledge:
    """Return the checked knowledge of `folder`, through the compiled copy in `cache` where one fits.

    Raises KnowledgeError naming file, line and key. A cache that cannot be read or written is passed over.
    """
    with _no_collecting():
        written = _read(folder)
        digest = _digest(written)
        compiled = cache / f"knowledge-{_FORM}-{digest[:16]}.json" if cache else None
        known = _from_cache(compiled, digest)
        if known is not None:
            return replace(known, folder=folder)
        known = assemble(folder, digest, {name: _decoded(name, content) for name, content in written.items()})
        _to_cache(compiled, known)
        return known


@contextmanager
def _no_collecting() -> Iterator[None]:
    """Keep the garbage collector off what is made here, now and later: knowledge stays for as long as the program."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
        gc.freeze()
    finally:
        if was_on:
            gc.enable()


def _read(folder: Path) -> dict[str, bytes]:
    written = {}
    for name, file in sorted(_files(folder)):
        try:
            with open(file, "rb", buffering=0) as opened:
                written[name] = opened.read().replace(b"\r\n", b"\n")
        except OSError as error:
            raise _unreadable(name, error) from None
    return written


def _decoded(name: str, content: bytes) -> str:
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise _unreadable(name, error) from None


def _unreadable(name: str, error: Exception) -> KnowledgeError:
    return KnowledgeError(f"{name}: cannot be read ({error}); save it as UTF-8 text.")


def _files(folder: Path) -> Iterator[tuple[str, str]]:
    """Yield the name of each file relative to the folder, with forward slashes, and where it lies."""
    top = os.fspath(folder)
    for where, _, names in os.walk(top):
        inside = where[len(top) :].strip(os.sep).replace(os.sep, "/")
        for name in names:
            if name.endswith(".toml"):
                yield f"{inside}/{name}" if inside else name, os.path.join(where, name)


def _digest(written: dict[str, bytes]) -> str:
    digest = hashlib.sha256(str(_SCHEMA_VERSION).encode())
    for name, content in written.items():
        digest.update(f"\0{name}\0".encode() + content)
    return digest.hexdigest()


@lru_cache(maxsize=1)
def _compiled_form() -> TypeAdapter[Knowledge]:
    return TypeAdapter(Knowledge)


def _from_cache(file: Path | None, digest: str) -> Knowledge | None:
    """Return what a compiled copy holds, read and checked in one go; None where there is none that fits."""
    if file is None:
        return None
    try:
        known = _compiled_form().validate_json(file.read_bytes())
    except (OSError, ValueError):
        return None
    return known if known.hash == digest else None


def _to_cache(file: Path | None, known: Knowledge) -> None:
    if file is None:
        return
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part = file.with_suffix(".part")
        part.write_bytes(_compiled_form().dump_json(known, exclude_unset=True))
        part.replace(file)
    except OSError:
        return
