"""Rules of the knowledge check about what every crop and every cause must have."""

from collections.abc import Iterator

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause, file_of
from scout.knowledge.crop_file import Crop


def something_is_said_for_today(k: Knowledge) -> Iterator[str]:
    """Every cause in use tells what to do today, if only to wait: a page without that is no use at a bed."""
    for cause in k.causes.values():
        if cause.status != "retired" and not any(action.when == "today" for action in cause.do):
            yield f"{file_of(cause)}: name a control for today, 'wait_and_watch' or 'nothing_to_do' among them."


def codes_are_confirmed(k: Knowledge) -> Iterator[str]:
    """An EPPO code stands only where a page of EPPO or an official text shows it: none is built from a name."""
    entries: list[tuple[str, Cause | Crop]] = [(file_of(cause), cause) for cause in k.causes.values()]
    entries += [(f"crops/{crop.id}.toml", crop) for crop in k.crops.values()]
    for where, entry in entries:
        if entry.eppo is not None and entry.eppo_status != "confirmed":
            yield f"{where}: the EPPO code {entry.eppo!r} is not confirmed; confirm it or leave it out."


def every_cause_has_a_look_alike(k: Knowledge) -> Iterator[str]:
    """Every cause in use names what it is mistaken for, and the observation that splits the two."""
    for cause in k.causes.values():
        if not cause.look_alikes and cause.status != "retired":
            yield f"{file_of(cause)}: name a look-alike and what splits the two."


def every_crop_has_causes(k: Knowledge) -> Iterator[str]:
    """A crop without a cause can be planted but never diagnosed."""
    for crop in k.crops:
        if not k.causes_of(crop):
            yield f"crops/{crop}.toml: no cause names this crop."


def families_are_named_alike(k: Knowledge) -> Iterator[str]:
    """A family has one name: the same sign on two of them would count as several sorts."""
    said: dict[str, str] = {}
    for crop in k.crops.values():
        first = said.setdefault(crop.family.split("(")[1], crop.family)
        if crop.family != first:
            yield f"crops/{crop.id}.toml: family {crop.family!r} is {first!r} in another crop; write it alike."
