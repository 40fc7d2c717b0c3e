"""Backups of the garden file, and the way back; a restore first keeps a copy of what it replaces."""

import shutil
from pathlib import Path

from scout import paths
from scout.errors import NotFound, Refused, StoreError
from scout.services.context import Context


def back_up_garden(context: Context, to: Path | None = None) -> Path:
    """Write a checked copy of the garden file and return where it lies; no name: into the folder of backups.

    A folder gets a dated name; another program's file is never written over.
    """
    from scout.store.backups import back_up, free_name
    from scout.store.engines import stored_version

    garden = _garden_file(context)
    stem = f"garden-{context.today.isoformat()}"
    if to is None:
        to = free_name(paths.backups(context.root), stem)
    elif to.is_dir():
        to = free_name(to, stem)
    elif to.exists():
        stored_version(to)
    back_up(garden, to)
    return to


def restore_garden(context: Context, source: Path) -> Path | None:
    """Put a backup in the place of the garden; return where the garden that was there is kept, None: there was none.

    Raises StoreError for a backup that is damaged, or newer than the program; the garden is as before then.
    """
    from scout.store.backups import free_name, restore
    from scout.store.engines import refuse_newer, stored_version

    garden = _garden_file(context)
    if not source.is_file():
        raise NotFound(f"There is no backup {source}; 'bedwalk selfcheck' prints where backups lie.")
    if garden.exists() and garden.samefile(source):
        raise Refused(f"{source} is the garden itself; name a backup.")
    refuse_newer(source, stored_version(source))
    kept = None
    if garden.exists():
        kept = free_name(paths.backups(context.root), f"garden-before-restore-{context.today.isoformat()}")
        _keep(garden, kept)
    restore(source, garden)
    return kept


def _garden_file(context: Context) -> Path:
    if context.settings.database is not None:
        raise Refused("This garden lies on a server; its keeper makes and restores the backups there.")
    return paths.database(context.root)


def _keep(garden: Path, to: Path) -> None:
    """Copy the garden; one that is damaged is copied byte by byte, for whoever can mend it."""
    from scout.store.backups import back_up

    try:
        back_up(garden, to)
    except StoreError:
        try:
            to.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(garden, to)
        except OSError as error:
            raise StoreError(
                f"{to} cannot be written ({error.strerror}), so the garden was not replaced; free some room first."
            ) from None
