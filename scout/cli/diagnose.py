"""`bedwalk diagnose`: a case in, ranked causes out; the contract for scripts."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from scout.cli.commands import Json, app, print_json
from scout.cli.opening import context_for
from scout.errors import BadInput

if TYPE_CHECKING:
    from scout.services.answer_shape import Answer, Failed

CaseFile = Annotated[
    str | None, typer.Option("--case", metavar="FILE", help="A case or a list of cases; - reads stdin.")
]


@app.command()
def diagnose(
    case: CaseFile = None,
    schema: Annotated[bool, typer.Option("--schema", help="Print the JSON schema of case and answer.")] = False,
    as_json: Json = False,
) -> None:
    """Rank the likely causes of a case."""
    from scout.services.diagnose import case_and_answer_schema

    if schema:
        print_json(case_and_answer_schema())
        return
    if case is None:
        raise BadInput("Give a case with --case FILE (or - for stdin), or --schema to see what one looks like.")
    _answer(_read(case), as_json)


def _answer(text: str, as_json: bool) -> None:
    from scout.services.answer_shape import Failed
    from scout.services.diagnose import answer_text

    answers, was_list = answer_text(context_for(None).knowledge, text)
    failed = [a for a in answers if isinstance(a, Failed)]
    if failed and not was_list:
        raise BadInput(failed[0].error)
    if as_json:
        dumped = [a.model_dump(mode="json") for a in answers]
        print_json(dumped if was_list else dumped[0])
    else:
        print("\n\n".join("\n".join(_lines(a)) for a in answers))
    if failed:
        raise SystemExit(1)


def _read(name: str) -> str:
    if name == "-":
        return sys.stdin.read()
    try:
        return Path(name).read_text(encoding="utf-8")
    except OSError as error:
        raise BadInput(f"{name}: cannot be read ({error.strerror}).") from None
    except UnicodeDecodeError:
        raise BadInput(f"{name}: is not UTF-8 text.") from None


def _lines(answer: "Answer | Failed") -> list[str]:
    from scout.services.answer_shape import Failed
    from scout.services.spoken import answer_lines

    return [answer.error] if isinstance(answer, Failed) else answer_lines(answer)
