"""`bedwalk marked`: plants that are measured again at every visit."""

from dataclasses import asdict
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from scout.cli.asking import agree, given_or_asked, interactive, read
from scout.cli.choosing import planting_given
from scout.cli.commands import Json, On, app, print_json
from scout.cli.garden import PlantingName
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.typed import count, decimal
from scout.errors import BadInput

if TYPE_CHECKING:
    from scout.services.marked_doubts import Doubt

group = typer.Typer(help="Mark plants, measure them, show what was measured.", no_args_is_help=True)
app.add_typer(group, name="marked")

_ASKED = (
    ("top_leaf", "Top open leaf, counted from the soil"),
    ("highest_diseased", "Highest spotted leaf, also those you take off; 0: none"),
    ("newly_diseased", "Newly spotted leaves since last time"),
    ("stripped_to", "Stripped up to which leaf, after today"),
    ("leaves_standing", "Leaves left standing"),
)


def _leaf(flag: str) -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(flag, parser=count(flag), metavar="N")
    return option


@group.command("add")
def add(
    planting: PlantingName = None,
    label: Annotated[str | None, typer.Argument(help="Such as: 2nd from the path, red tape.")] = None,
    habit: Annotated[Literal["indeterminate", "determinate", "topped"], typer.Option("--habit")] = "indeterminate",
    control: Annotated[bool, typer.Option("--unstripped", help="Left unstripped, to compare.")] = False,
    on: On = None,
) -> None:
    """Mark a plant."""
    from scout.services import marked
    from scout.services.named import full_name

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        label = given_or_asked(label, "LABEL", "A name for the plant, like 2nd from the path")
        if control and not marked.may_stay_unstripped(context, plant.planting_id):
            raise BadInput(
                "One plant is left unstripped, and only where Septoria leaf spot or early blight is the open problem, "
                "and nothing else: it feeds the plants beside it. Mark this one without --unstripped."
            )
        marked.mark_plant(context, plant.planting_id, label, habit, control=control)
        say(f"Marked in {full_name(plant)}: {label}", marked.COUNTED_FROM)


@group.command("measure")
def measure(
    planting: PlantingName = None,
    label: Annotated[str | None, typer.Argument(help="Which marked plant.")] = None,
    top: Annotated[int | None, _leaf("--top")] = None,
    highest: Annotated[int | None, _leaf("--highest")] = None,
    new: Annotated[int | None, _leaf("--new")] = None,
    stripped_to: Annotated[int | None, _leaf("--stripped-to")] = None,
    standing: Annotated[int | None, _leaf("--standing")] = None,
    severity: Annotated[float | None, typer.Option("--severity", parser=decimal("--severity"), metavar="PCT")] = None,
    wet: Annotated[Literal["wet", "dry", "not_felt"], typer.Option("--leaves", help="To your hand.")] = "not_felt",
    sure: Annotated[bool, typer.Option("--sure", help="It is so, also where it can hardly be.")] = False,
    on: On = None,
) -> None:
    """Keep one measurement; what is not given was not measured. What can hardly be is asked about."""
    from scout.services import marked, walk
    from scout.services.marked_doubts import ASK, doubts
    from scout.services.named import mark_named

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        mark = mark_named(context, plant, given_or_asked(label, "LABEL", "Which marked plant"))
        given = dict(zip((name for name, _ in _ASKED), (top, highest, new, stripped_to, standing), strict=True))
        if set(given.values()) == {None} and severity is None:
            given = _asked()
        stop = walk.current_stop(context)
        here = stop.id if stop is not None and stop.planting_id == plant.planting_id else None
        asked = () if sure else doubts(context, mark.id, plant.planting_id, given)
        _ask_about(asked)
        marked.measure(context, mark.id, stop_id=here, severity_pct=severity, wet=wet, **given)
        say(f"{mark.label}: {mark_named(context, plant, mark.id).last}")
        if asked and not interactive():
            say(*(one.text for one in asked), f"{ASK} If not: bedwalk walk undo")


def _ask_about(found: "tuple[Doubt, ...]") -> None:
    """Ask a person; where nobody can be asked, numbers that contradict each other need --sure."""
    from scout.services.marked_doubts import ASK

    if found and interactive():
        say(*(one.text for one in found))
        if not agree(ASK):
            raise BadInput("Nothing was kept; count again.")
    against = next((one for one in found if one.against_itself), None)
    if against is not None and not interactive():
        raise BadInput(f"{against.text.rstrip('.')}; count again, or add --sure if it is so.")


def _asked() -> dict[str, int | None]:
    if not interactive():
        raise BadInput("Nothing was measured; give --top, --highest, --new, --stripped-to or --standing.")
    given = {name: read(f"{question} (Enter: not measured)", count("Leaves")) for name, question in _ASKED}
    if set(given.values()) == {None}:
        raise BadInput("Nothing was measured, so nothing was kept.")
    return given


@group.command("felt")
def felt(
    leaves: Annotated[Literal["wet", "dry"], typer.Argument(help="To your hand, now.")],
    planting: PlantingName = None,
    on: On = None,
) -> None:
    """Keep how the leaves of a planting feel today; it stops the knife, or frees it, also without a marked plant."""
    from scout.services.felt import feel_leaves
    from scout.services.keeping_knife import knife_lines, knife_today

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        feel_leaves(context, plant.planting_id, dry=leaves == "dry")
        say(*knife_lines(knife_today(context, plant)))


@group.command("leave")
def leave(
    planting: PlantingName = None,
    label: Annotated[str | None, typer.Argument(help="Which marked plant.")] = None,
    on: On = None,
) -> None:
    """Measure a marked plant no more: it died, was pulled, or lost its tape; its counts stay."""
    from scout.services import marked
    from scout.services.named import full_name, mark_named

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        mark = mark_named(context, plant, given_or_asked(label, "LABEL", "Which marked plant"))
        marked.leave_plant(context, mark.id)
        say(f"Measured no more in {full_name(plant)}: {mark.label}")


@group.command("show")
def show(planting: PlantingName = None, on: On = None, as_json: Json = False) -> None:
    """Show the marked plants of a planting and what was measured."""
    from scout.services.keeping_table import as_json as as_plain
    from scout.services.keeping_table import table_at, table_lines
    from scout.services.marked import marked_plants

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        marks, found = marked_plants(context, plant.planting_id), table_at(context, plant)
        if as_json:
            print_json(as_plain(found) | {"marked": [asdict(mark) for mark in marks]})
            return
        for mark in marks:
            say(f"{mark.label} ({mark.habit}{', unstripped' if mark.control else ''}) {mark.last}")
        say(*table_lines(found))
