"""The commands of the line mode, put together."""

import json
from datetime import date
from typing import Annotated, Any

import typer

from scout.errors import BadInput

app = typer.Typer(
    help="Walk the beds, say what is wrong, act, and see next time whether it worked.",
    no_args_is_help=False,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)

On = Annotated[str | None, typer.Option("--on", metavar="DATE", help="Pretend it is this day (YYYY-MM-DD).")]
Json = Annotated[bool, typer.Option("--json", help="Answer in JSON.")]


def day_or_none(text: str | None) -> date | None:
    """Return the day of --on; BadInput says how to write it."""
    if text is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise BadInput(f"--on: {text!r} is not a day; write it as 2026-07-22.") from None


def print_json(value: Any) -> None:
    """Print a value as JSON, readable and in UTF-8."""
    print(json.dumps(value, ensure_ascii=False, indent=2))


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
    if context.invoked_subcommand is None:
        from scout.cli.opening import open_app

        open_app(day_or_none(on))


MODULES = ("knowledge", "diagnose")
"""Modules of this package that add commands to `app`."""


def load_commands() -> None:
    """Load every command."""
    import importlib

    for module in MODULES:
        importlib.import_module(f"scout.cli.{module}")


def run() -> None:
    """Run the command that was typed."""
    load_commands()
    app()
