"""Opens a garden for a command, or the app on it."""

from datetime import date
from pathlib import Path

from scout import paths
from scout.services.context import Context


def context_for(on: date | None, root: Path | None = None) -> Context:
    """Return the context of the grower's data folder; nothing is opened yet."""
    return Context(root=root or paths.home(), on=on)


def open_app(on: date | None, root: Path | None = None) -> None:
    """Open the app and wait until it is left."""
    from scout.tui.app import BedwalkApp

    BedwalkApp(context_for(on, root)).run()
