"""Set up a garden, question by question; a bed takes under half a minute and each answer is kept at once."""

from collections.abc import Callable
from typing import Any

from scout.errors import BadInput
from scout.services import garden, site
from scout.services.context import Context
from scout.services.site import machine_zone
from scout.tui.page import Page
from scout.tui.screens.ask import ChoicePage, TextPage
from scout.tui.screens.planting import PlantingQuestions

_UNITS = ("metric", "us")
_SITE = (
    ("name", "A name for the garden", "Only you see it"),
    ("zone", "Your time zone", "Such as Europe/Rome or America/Chicago"),
    ("units", "Units", ""),
    ("last_frost", "Last spring frost", "Such as 20 April; empty: not known"),
    ("first_frost", "First autumn frost", "Such as 28 October; empty: not known"),
)
_READ: dict[str, Callable[[str], str | None]] = {
    "zone": site.read_zone,
    "last_frost": site.read_frost,
    "first_frost": site.read_frost,
}
"""How what was typed is read; what cannot be read stays in its line."""


class SetUp:
    """The chain of questions; each page hands its answer to the next."""

    def __init__(self, page: Page[None], context: Context) -> None:
        self._page, self._garden = page, context

    def begin(self) -> None:
        """Ask for the garden's name, zone, units and frosts, one after the other."""
        self._ask_next({}, {"zone": machine_zone()})

    def _ask_next(self, given: dict[str, str], before: dict[str, str]) -> None:
        """Ask the next question; `before` holds what was answered the last time, where an answer was refused."""
        if len(given) == len(_SITE):
            self._create(given)
            return
        key, head, hint = _SITE[len(given)]

        def answered(value: str | int | None) -> None:
            if value is None or (value == "" and key in ("name", "zone")):
                return  # left: nothing is made yet
            read = _UNITS[value] if isinstance(value, int) else _READ.get(key, str)(value)
            self._ask_next(given | {key: read or ""}, before)

        if key == "units":
            self._choose(head, hint, ["Metric (°C, mm)", "US (°F, inch)"], answered)
        else:
            page = TextPage(head, hint, given=before.get(key, ""), keep=_READ.get(key))
            self._push(page, answered)

    def _create(self, given: dict[str, str]) -> None:
        try:
            site.create_garden(
                self._garden,
                given["name"],
                zone=given["zone"],
                units=given["units"],
                last_frost=given["last_frost"] or None,
                first_frost=given["first_frost"] or None,
            )
        except BadInput as refused:
            self._page.say(str(refused))
            self._ask_next({}, given)
            return
        self.add_bed()

    def add_bed(self, before: str = "") -> None:
        """Ask for the next bed in walking order: name, bed or tub, then what stands in it.

        before: a name that was refused, to be mended.
        """

        def named(text: str | None) -> None:
            if text:
                self._choose("What is it?", "", ["Bed", "Tub or pot"], lambda n: kind_given(text, n))

        def kind_given(name: str, number: int | None) -> None:
            if number is None:
                self.add_bed(name)
                return
            try:
                bed = garden.add_bed(self._garden, name, kind=("bed", "tub")[number])
            except BadInput as refused:
                self._page.say(str(refused))
                self.add_bed(name)
                return
            self.add_planting(bed, name)

        self._ask_text("Next bed in walking order", "A name you use; esc when that was all", named, given_text=before)

    def add_planting(self, bed_id: str, bed_name: str) -> None:
        """Ask what stands in a bed: crop, variety, how many, since when, from where."""
        crops = tuple(self._garden.knowledge.crops.values())

        def crop_given(number: int | None) -> None:
            if number is not None:
                self._planted(bed_id, bed_name, crops[number].id)
            else:
                self.add_bed()

        names, aliases = [crop.name for crop in crops], [" ".join(crop.aliases) for crop in crops]
        self._push(ChoicePage(bed_name, "What grows here? (esc: nothing)", names, heard=aliases), crop_given)

    def _planted(self, bed_id: str, bed_name: str, crop: str) -> None:
        PlantingQuestions(self._page, self._garden, (bed_id, bed_name), crop, self.add_bed).begin()

    def _ask_text(self, head: str, hint: str, act: Callable[..., None], given_text: str = "") -> None:
        self._push(TextPage(head, hint, given=given_text), act)

    def _choose(self, head: str, question: str, rows: list[str], act: Callable[..., None]) -> None:
        self._push(ChoicePage(head, question, rows), act)

    def _push(self, page: Page[Any], act: Callable[..., None]) -> None:
        self._page.app.push_page(page, act)
