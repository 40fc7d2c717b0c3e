"""`bedwalk walk`: what one stop gives, each kept when it is given."""

from dataclasses import asdict
from typing import Annotated, Literal

import typer

from scout.cli.asking import choose, interactive
from scout.cli.commands import Json, On, print_json
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.typed import count, shares
from scout.cli.walk import group, show_where
from scout.errors import BadInput, NotFound
from scout.plain import counted
from scout.services.context import Context
from scout.services.views import SymptomView

Looked = Annotated[
    int | None, typer.Option("--looked", parser=count("--looked"), metavar="N", help="Plants looked at.")
]
_CLEAR = {"glance": "glance", "all": "every_look", "bed": "whole_bed"}


@group.command("answer")
def answer(
    look: Annotated[str, typer.Argument(help="The look's number or id.")],
    answer: Annotated[Literal["clear", "seen", "skip"], typer.Argument()],
    looked: Looked = None,
    on: On = None,
) -> None:
    """Answer one look: clear, seen, or not looked at."""
    from scout.services import answers
    from scout.services.named import listed, look_named
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        stop = stop_here(context)
        found = look_named(stop, look)
        looked_n = None if answer == "skip" else looked if looked is not None else stop.plants_n
        answers.answer_look(context, stop.id, found.id, answer, looked_n)
        looked_at = f", {counted(looked_n, 'plant')} looked at" if looked_n is not None else ""
        say(f"{found.ask} {answer}{looked_at}")
        if answer == "seen":
            say(f"Say what with: bedwalk walk find SYMPTOM; it may be {listed(s.id for s in found.symptoms)}.")


@group.command("find")
def find(
    symptom: Annotated[str, typer.Argument(help="Its id, name, or your own words.")],
    looked: Looked = None,
    affected: Annotated[
        int | None, typer.Option("--affected", parser=count("--affected"), metavar="N", help="Plants that have it.")
    ] = None,
    which: Annotated[str | None, typer.Option("--which", help="Which plants, such as: 3rd from the path.")] = None,
    severity: Annotated[
        str | None,
        typer.Option("--severity", metavar="L,M,T", help="Leaf area in % of the lowest, middle and top third."),
    ] = None,
    not_seen: Annotated[bool, typer.Option("--not-seen", help="Looked for and not there.")] = False,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Keep what was seen here, or looked for and not seen."""
    from scout.services.noted import NewFinding, note_finding
    from scout.services.spoken_walk import finding_line, stop_here

    area = shares("--severity")(severity) if severity is not None else (None, None, None)
    with garden_on(on) as context:
        stop = stop_here(context)
        meant = confirmed(context, stop.crop_id, symptom)
        given = NewFinding(meant.id, not not_seen, looked, affected, area, which)
        kept = note_finding(context, stop, given)
        if as_json:
            print_json(asdict(kept))
        else:
            say(finding_line(kept))


def confirmed(context: Context, crop_id: str, words: str) -> SymptomView:
    """Return the symptom named, or the one the grower picks of those the words may mean; never a guess."""
    from scout.services.named import listed, said, symptom_meant

    exact, candidates = symptom_meant(context, crop_id, words)
    if exact is not None:
        return exact
    if not candidates:
        raise NotFound(f"Nothing in the list is like {said(words)}; 'bedwalk knowledge list symptoms' prints it.")
    if not interactive():
        names = listed(f"{one.id} ({one.name})" for one in candidates)
        raise BadInput(f"{said(words)} may mean {names}; give one of these ids.")
    place = choose("Which of these", [one.name for one in candidates])
    if place is None:
        raise BadInput("Nothing was kept.")
    return candidates[place]


@group.command("clear")
def clear(
    kind: Annotated[Literal["glance", "all", "bed"], typer.Argument(help="Glanced over, every look made, whole bed.")],
    looked: Looked = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Close this stop as clear and show the next."""
    from scout.services import walk
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        stop = stop_here(context)
        if kind == "bed":
            if looked is not None:
                raise BadInput("--looked does not go with bed: each planting is kept with its own count.")
            walk.clear_bed(context, stop.id)
            show_where(context, as_json, [f"{stop.bed}: clear."])
            return
        looked_n = looked if looked is not None else stop.plants_n
        if looked_n is None or looked_n < 1:
            raise BadInput("Say on how many plants you looked with --looked N, at least 1.")
        walk.clear(context, stop.id, _CLEAR[kind], looked_n)
        show_where(context, as_json, [f"{stop.bed}, {stop.crop}: clear, {counted(looked_n, 'plant')} looked at."])


@group.command("pick")
def pick(
    sound: Annotated[int | None, typer.Option("--sound", parser=count("--sound"), metavar="N")] = None,
    odd: Annotated[int | None, typer.Option("--odd", parser=count("--odd"), metavar="N")] = None,
    on: On = None,
) -> None:
    """Add sound and odd pieces to today's pick here."""
    from scout.services import answers
    from scout.services.spoken_walk import stop_here

    if not sound and not odd:
        raise BadInput("Say what was picked with --sound N or --odd N.")
    with garden_on(on) as context:
        answers.tally(context, stop_here(context).id, sound=sound or 0, odd=odd or 0)
        picks = stop_here(context).picks
        say(f"Picked today: {picks[0]} sound, {picks[1]} odd")


@group.command("water")
def water(outcome: Annotated[Literal["watered", "missed", "timer_failed"], typer.Argument()], on: On = None) -> None:
    """Keep what happened to the water of this zone or bed."""
    from scout.services import answers
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        answers.log_watering(context, stop_here(context).id, outcome)
        say(f"Noted: {dict(answers.WATERINGS)[outcome].lower()}")


@group.command("friend")
def friend(enemy: Annotated[str, typer.Argument(help="A natural enemy by id or name.")], on: On = None) -> None:
    """Keep that a natural enemy of pests was seen here."""
    from scout.services import answers
    from scout.services.named import enemy_named
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        stop = stop_here(context)
        key, name = enemy_named(context, enemy)
        answers.log_enemy(context, stop.id, key)
        say(f"Noted: {name}")


@group.command("note", context_settings={"ignore_unknown_options": True})  # it may begin with a minus
def note(text: Annotated[str, typer.Argument(help="A line to read at the next visit.")], on: On = None) -> None:
    """Keep a line to read at the next visit."""
    from scout.services import answers
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        stop = stop_here(context)
        answers.note(context, stop.id, text)
        say(f"Noted for the next visit of {stop.bed}, {stop.crop}.")
