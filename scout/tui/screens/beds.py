"""Beds and what stands in them: add, set the stage, pull."""

from functools import partial

from scout.services import garden
from scout.services.context import Context
from scout.services.garden import Planted
from scout.tui.page import GardenPage, View
from scout.tui.screens.ask import ChoicePage, NumberPage, TextPage


class BedsPage(GardenPage[None]):
    """Every planting in walking order."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self._plants: tuple[Planted, ...] = ()
        self._empty: tuple[tuple[str, str, str], ...] = ()

    def view(self) -> View:
        """List beds with their plantings, then the empty ones."""
        self._plants = garden.planted(self._garden)
        filled = {plant.bed_id for plant in self._plants}
        self._empty = tuple(bed for bed in garden.bed_names(self._garden) if bed[0] not in filled)
        rows = [_row(plant) for plant in self._plants]
        rows += [f"{name} ({kind}) · empty" for _, name, kind in self._empty]
        picks = [*rows, "Add a bed", "Something was brought in", "A disease is reported near"]
        return View(f"{len(rows)} beds and plantings", picks=picks, actions=("find_bed", "undo", "back"))

    def do_find_bed(self) -> None:
        """Find a planting or a bed by letters, and open it."""
        rows = list(self.shown.picks)
        self.ask(ChoicePage("Find", "", rows, narrow=True), self.picked)

    def picked(self, index: int) -> None:
        """Open a planting, fill an empty bed, or add one."""
        from scout.tui.screens.setup import SetUp

        if index < len(self._plants):
            self._open(self._plants[index])
        elif index < len(self._plants) + len(self._empty):
            bed_id, name, _ = self._empty[index - len(self._plants)]
            SetUp(self, self._garden).add_planting(bed_id, name)
        else:
            later = index - len(self._plants) - len(self._empty)
            (SetUp(self, self._garden).add_bed, self._brought_in, self._near)[later]()

    def _open(self, plant: Planted) -> None:
        from scout.services.gaps import gaps_ahead

        rows = ["Look at it now", "Set its stage", "Add another planting to this bed", "It was pulled"]
        rows += ["Marked plants", "A labelled product was used"]
        acts = (self._look, self._stage, self._add, self._pulled, self._marked, self._product)
        ahead = [line for view in gaps_ahead(self._garden, [plant]) for line in view.lines]
        text = "\n".join([f"Stage: {plant.stage or 'not known'}", *ahead])
        self.ask(ChoicePage(f"{plant.bed} · {plant.label}", text, rows), lambda number: acts[number](plant))

    def _look(self, plant: Planted) -> None:
        from scout.services.walk_elsewhere import look_now
        from scout.tui.screens.stop import StopPage

        look_now(self._garden, plant.planting_id, plant.bed_id)
        self.app.push_page(StopPage(self._garden))

    def _stage(self, plant: Planted) -> None:
        stages = plant.crop.stages
        page = ChoicePage(plant.label, "Its stage now", [stage.name for stage in stages])
        self.ask(page, lambda number: garden.set_stage(self._garden, plant.planting_id, stages[number].id))

    def _add(self, plant: Planted) -> None:
        from scout.tui.screens.setup import SetUp

        SetUp(self, self._garden).add_planting(plant.bed_id, plant.bed)

    def _pulled(self, plant: Planted) -> None:
        keep = partial(garden.remove_planting, self._garden, plant.planting_id)
        hint = "Such as: finished, wilted, made room"
        self.app.push_page(TextPage(plant.label, "Why was it pulled?", hint=hint, keep=keep))

    def _marked(self, plant: Planted) -> None:
        from scout.tui.screens.marked import MarkedPage

        self.app.push_page(MarkedPage(self._garden, plant.planting_id, None))

    def _product(self, plant: Planted) -> None:
        from scout.tui.screens.holds import HoldQuestions

        HoldQuestions(self, self._garden).ask(plant)

    def _brought_in(self) -> None:
        from scout.services.outside import GOODS, note_brought_in, outside_lines

        beds = garden.bed_names(self._garden)

        def to_bed(what: str, number: int) -> None:
            note_brought_in(self._garden, what, beds[number - 1][0] if number else None)
            self.say(f"Noted: {what} brought in.")

        def chosen(number: int) -> None:
            page = ChoicePage(GOODS[number], "Where did it go?", ["All over", *(name for _, name, _ in beds)])
            self.ask(page, lambda bed: to_bed(GOODS[number], bed))

        self.ask(ChoicePage("Brought in", "\n".join(outside_lines(self._garden)[:4]), GOODS), chosen)

    def _near(self) -> None:
        from scout.services.outside import note_near_report, outside_lines, reportable

        diseases = tuple(reportable(self._garden).items())

        def counted(number: int, km: int | None) -> None:
            note_near_report(self._garden, diseases[number][0], km)
            self.say(f"Noted: {diseases[number][1]} reported near.")

        def chosen(number: int) -> None:
            page = NumberPage(diseases[number][1], "How many km away? (esc: not known)", most=5000)
            self.app.push_page(page, lambda km: counted(number, km))

        text = "\n".join(outside_lines(self._garden)[:4])
        self.ask(ChoicePage("Reported near", text, [name for _, name in diseases]), chosen)


def _row(plant: Planted) -> str:
    count = f" × {plant.plants_n}" if plant.plants_n else ""
    return f"{plant.bed} · {plant.label}{count} · {plant.stage or '?'}"
