"""New pictures in the watched folder."""

from pathlib import Path

from scout.photos.opening import SUFFIXES


def inbox_files(folder: Path) -> tuple[Path, ...]:
    """Return the pictures in `folder`, oldest first; none when there is no such folder.

    Left out: folders, other kinds of file, hidden ones, and those a transfer has only begun (empty, or with a
    suffix of its own after the picture's).
    """
    try:
        entries = list(folder.iterdir())
    except OSError:
        return ()
    dated = [(changed, path.name, path) for path in entries if (changed := _changed(path)) is not None]
    return tuple(path for _, _, path in sorted(dated))


def _changed(path: Path) -> int | None:
    """Return when a finished picture was last written, in ns; None for all else."""
    if path.name.startswith((".", "~")) or path.suffix.lower() not in SUFFIXES:
        return None
    try:
        state = path.stat()
    except OSError:  # moved away meanwhile
        return None
    return state.st_mtime_ns if state.st_size and path.is_file() else None
