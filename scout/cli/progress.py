"""A bar for long work, where a person watches; Ctrl-C stops the work and nothing of it is kept."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from scout.errors import Stopped

_CELLS = 20


@contextmanager
def progress(doing: str) -> Iterator[Callable[[float], None]]:
    """Give what hears the share done, 0 to 1; the bar stands on standard error and only at a terminal."""
    watched = sys.stderr is not None and sys.stderr.isatty()

    def told(share: float) -> None:
        if watched:
            full = round(_CELLS * min(1.0, share))
            bar = "#" * full + "." * (_CELLS - full)
            print(f"\r{doing} [{bar}] {share:4.0%}", end="", file=sys.stderr, flush=True)

    try:
        yield told
    except KeyboardInterrupt:
        raise Stopped("Stopped; nothing was written.") from None
    finally:
        if watched:
            print(f"\r{' ' * (len(doing) + _CELLS + 8)}\r", end="", file=sys.stderr, flush=True)
