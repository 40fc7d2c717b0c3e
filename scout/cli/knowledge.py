"""`bedwalk knowledge`: check, list, show, score."""

from pathlib import Path
from typing import Annotated, Any

import typer

from scout.cli.commands import Json, On, app, day_or_none, print_json
from scout.cli.opening import context_for
from scout.errors import BadInput, KnowledgeError
from scout.services.vocabulary import KINDS, listed, shown

group = typer.Typer(help="Check, list and read what Bedwalk knows.", no_args_is_help=True)
app.add_typer(group, name="knowledge")


@group.command("check")
def check(on: On = None) -> None:
    """Check every file and every rule that spans files."""
    from scout.knowledge.check import check_knowledge

    context = context_for(day_or_none(on))
    problems = check_knowledge(context.knowledge, context.today)
    for sentence in problems:
        print(sentence)
    if problems:
        raise KnowledgeError(f"{len(problems)} problems in {context.knowledge.folder}.")
    known = context.knowledge
    print(
        f"In order: {len(known.crops)} crops, {len(known.causes)} causes, {len(known.symptoms)} symptoms, "
        f"{len(known.controls)} controls, {len(known.sources)} sources."
    )


@group.command("list")
def list_kind(kind: Annotated[str, typer.Argument(help=" | ".join(KINDS))], as_json: Json = False) -> None:
    """List crops, symptoms, circumstances, causes or controls."""
    entries: list[dict[str, Any]] = listed(context_for(None).knowledge, kind)
    if as_json:
        print_json(entries)
        return
    for entry in entries:
        print(f"{entry['id']:<36} {entry['name']}")


@group.command("show")
def show(entry: Annotated[str, typer.Argument(help="The id of a crop, symptom, cause or control.")]) -> None:
    """Read one entry like a page of a field guide."""
    print("\n".join(shown(context_for(None).knowledge, entry)))


@group.command("score")
def score_cases(
    cases: Annotated[
        Path | None, typer.Option(help="Folder of cases; the project's own where they are at hand.")
    ] = None,
    half: Annotated[str, typer.Option(help="tuning | unseen | all")] = "tuning",
    as_json: Json = False,
) -> None:
    """Answer cases from published descriptions and count how often the right cause leads."""
    from scout.intake.knowledge_case import read_cases
    from scout.services.score import score
    from scout.services.score_lines import score_lines

    if half not in ("tuning", "unseen", "all"):
        raise BadInput(f"There is no half {half!r}; give tuning, unseen or all.")
    knowledge = context_for(None).knowledge
    folder = cases or knowledge.folder.parent / "tests" / "knowledge" / "cases"
    result = score(knowledge, read_cases(folder), half)  # type: ignore[arg-type]
    if as_json:
        print_json(result.as_json())
        return
    for line in score_lines(result):
        print(line)
