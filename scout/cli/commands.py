"""The commands of the line mode, put together."""

import io
import json
import sys
from contextvars import ContextVar
from dataclasses import fields, is_dataclass
from datetime import date
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from scout.errors import BadInput


class _Spoken(TyperGroup):
    """The commands; a word that is none of the choices is refused without the name of the library that read it."""

    def invoke(self, ctx: Any) -> Any:
        """Run the command that was typed."""
        try:
            return super().invoke(ctx)
        except typer.BadParameter as wrong:
            wrong.message = wrong.message.removeprefix("Value error, ")
            raise


app = typer.Typer(
    cls=_Spoken,
    help="Walk the beds, say what is wrong, act, and see next time whether it worked.",
    no_args_is_help=False,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)

On = Annotated[str | None, typer.Option("--on", metavar="DATE", help="Pretend it is this day (YYYY-MM-DD).")]
Json = Annotated[bool, typer.Option("--json", help="Answer in JSON.")]

_on_before: ContextVar[str | None] = ContextVar("on_before", default=None)
"""The --on given before the command's name."""


def day_or_none(text: str | None) -> date | None:
    """Return the day of this command's --on, else of the one before the command; BadInput says how to write it."""
    text = text if text is not None else _on_before.get()
    if text is None:
        return None
    from scout.intake.dates import read_date

    try:
        return read_date(text)
    except BadInput as problem:
        raise BadInput(f"--on: {problem}") from None


def print_json(value: Any) -> None:
    """Print a value as JSON, readable where standard output can carry it."""
    can_carry = (sys.stdout.encoding or "").lower().replace("-", "") == "utf8"
    print(json.dumps(value, ensure_ascii=not can_carry, indent=2))


def jsonable(value: Any) -> Any:
    """Return frozen values, tuples and days as what JSON can hold."""
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: jsonable(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, dict):
        return {key: jsonable(one) for key, one in value.items()}
    if isinstance(value, tuple | list):
        return [jsonable(one) for one in value]
    return value.isoformat() if isinstance(value, date) else value


def _version(asked: bool) -> None:
    if asked:
        from importlib.metadata import version

        print(f"bedwalk {version('bedwalk')}")
        raise typer.Exit


@app.callback(invoke_without_command=True)
def opened(
    context: typer.Context,
    on: On = None,
    version: Annotated[bool, typer.Option("--version", callback=_version, is_eager=True)] = False,
) -> None:
    """Open the app when no command is given."""
    _on_before.set(on)
    if context.invoked_subcommand is None:
        from scout.cli.opening import open_app

        open_app(day_or_none(on))


MODULES = (
    "garden",
    "outside",
    "walk",
    "walk_answers",
    "walk_causes",
    "alerts",
    "gaps",
    "confirmed",
    "jobs",
    "job_counts",
    "holds",
    "counts",
    "diagnose",
    "keeping",
    "marked",
    "photo",
    "weather",
    "weather_files",
    "copies",
    "demo",
    "knowledge",
)
"""Modules of this package that add commands to `app`."""


def load_commands() -> None:
    """Load every command."""
    import importlib

    for module in MODULES:
        importlib.import_module(f"scout.cli.{module}")


def run() -> None:
    """Run the command that was typed."""
    load_commands()
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")  # a narrow terminal encoding shows a question mark, no traceback
    app()
