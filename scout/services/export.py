"""Everything handed out in plain files: a CSV file a table and the pictures, readable without this program."""

import csv
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from scout import paths
from scout.errors import BedwalkError, PhotoError, Refused, StoreError
from scout.services.context import Context
from scout.services.site import site_of

if TYPE_CHECKING:
    from scout.store.whole import WholeTable

PLACE = ("latitude", "longitude")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True)
class Exported:
    """What was written."""

    tables_n: int
    rows_n: int
    photos_n: int
    photos_missing_n: int
    """Pictures that the garden knows of and that do not lie in its folder any more, or are damaged."""


def export(context: Context, folder: Path, *, with_place: bool = False) -> Exported:
    """Write all tables and pictures into a new or empty folder; on a failure nothing of it stays.

    Latitude and longitude are left out unless asked for; pictures never carry the place they were taken at.
    """
    from scout.store.whole import whole_tables

    site = site_of(context)
    tables_n = rows_n = 0
    with _all_or_nothing(folder) as written, context.read() as session:
        _write(folder / "README.txt", _about(site.name, context.today.isoformat(), with_place), written)
        for table in whole_tables(session=session, garden_id=str(context.garden_id)):
            rows_n += _write_table(folder / f"{table.name}.csv", table, with_place, written)
            tables_n += 1
        kept, missing = _copy_photos(context, folder / "photos", written)
    return Exported(tables_n, rows_n, kept, missing)


def safe_cell(value: Any) -> Any:
    """Return a cell that no spreadsheet takes for a formula; numbers stay numbers, yes and no are 1 and 0."""
    if isinstance(value, bool):
        return int(value)
    if isinstance(value, str) and value.startswith(_FORMULA):
        return f"'{value}"
    return value


@contextmanager
def _all_or_nothing(folder: Path) -> Iterator[list[Path]]:
    """Give the list to enter each file in before it is written; after a failure they are taken away again."""
    written: list[Path] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if any(folder.iterdir()):
            raise Refused(f"{folder} is not empty; name a new folder, so that nothing old stays among the new.")
        yield written
    except (OSError, BedwalkError) as error:
        for file in written:
            with suppress(OSError):
                file.unlink(missing_ok=True)
        if isinstance(error, BedwalkError):
            raise
        reason = (error.strerror or "the system gave no reason").lower()
        raise StoreError(f"{error.filename or folder} cannot be written: {reason}; nothing was exported.") from None


def _write(file: Path, text: str, written: list[Path]) -> None:
    written.append(file)
    file.write_text(text, encoding="utf-8")


def _about(name: str, today: str, with_place: bool) -> str:
    place = "with" if with_place else "without"
    return (
        f"{name}, exported by Bedwalk on {today}: one UTF-8 CSV file a table, {place} latitude and longitude; "
        "photos/ holds the pictures without place; a cell that could be taken for a formula begins with '.\n"
    )


def _write_table(file: Path, table: "WholeTable", with_place: bool, written: list[Path]) -> int:
    kept = [at for at, name in enumerate(table.columns) if with_place or name not in PLACE]
    written.append(file)
    rows_n = 0
    with file.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out)
        writer.writerow([table.columns[at] for at in kept])
        for row in table.rows:
            writer.writerow([safe_cell(row[at]) for at in kept])
            rows_n += 1
    return rows_n


def _copy_photos(context: Context, folder: Path, written: list[Path]) -> tuple[int, int]:
    """Copy the pictures without place; return how many, and how many could not be."""
    from scout.photos.taking import stripped_copy
    from scout.store import photos

    with context.read() as session:
        known = photos.photos(session=session, garden_id=str(context.garden_id))
    missing = 0
    for photo in known:
        source = paths.photos(context.root) / photo.file
        copy = folder / photo.file
        written.append(copy)
        try:
            stripped_copy(source, copy)
        except PhotoError:
            if not _damaged(source):
                raise  # it is the copy that could not be written
            missing += 1
    return len(known) - missing, missing


def _damaged(file: Path) -> bool:
    from scout.photos.opening import opened, read_original

    try:
        with opened(read_original(file)) as image:
            image.load()
    except PhotoError:
        return True
    return False
