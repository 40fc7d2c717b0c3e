"""Opens the grower's data for one command and lets go of it at the end."""

from collections.abc import Iterator
from contextlib import contextmanager

from scout.cli.commands import day_or_none
from scout.cli.opening import context_for
from scout.services.context import Context


@contextmanager
def data_on(on: str | None) -> Iterator[Context]:
    """Give the data folder on a day, garden or not."""
    context = context_for(day_or_none(on))
    try:
        yield context
    finally:
        if "engine" in vars(context):
            context.engine.dispose()


@contextmanager
def garden_on(on: str | None) -> Iterator[Context]:
    """Give the garden on a day; NotFound says how to set one up."""
    from scout.services.site import site_of

    with data_on(on) as context:
        site_of(context)
        yield context
