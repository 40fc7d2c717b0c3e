"""A few pictures of the screen, of made-up views; every other test looks at what stands there, not at how it is drawn.

After a wanted change: pytest -n0 tests/tui/test_pictures.py --snapshot-update, and look at the new pictures.
"""

from pathlib import Path

import pytest

from scout.services import causes, walk
from scout.services.views import CauseRow, CausesView, FindingView, LookView, QuestionView, StopView
from scout.tui.app import BedwalkApp
from scout.tui.screens.causes import CausesPage
from scout.tui.screens.stop import StopPage

from .conftest import DESK, PHONE
from .hand import Hand

STOP = StopView(
    id="stop",
    walk_id="walk",
    planting_id="planting",
    number=3,
    total=12,
    bed="Long bed",
    bed_kind="bed",
    crop_id="cucumber",
    crop="Cucumber",
    variety="Testina",
    plants_n=8,
    group="spotted",
    why="open problem: powdery mildew",
    last_visit=("18 July: took the worst leaves off [/z]", "white powder, 3 of 8"),
    holds=("Do not eat until 24 July 08:00: labelled product",),
    troubles=("Powdery mildew",),
    looks=(
        LookView("one", "newest_leaf", "The three newest leaves: mottled, narrow?", "", "clear", ()),
        LookView("two", "lowest_leaves", "Push leaves aside: spots, rings, powder?", "", "seen", ()),
        LookView("three", "fruit", "Lift the fruit and look at both ends.", "", "open", ()),
    ),
    findings=(
        FindingView("finding", "leaf.white_powder", "white powder", True, 8, 2, (10.0, None, None), "3rd, 5th", ""),
    ),
    picks=(12, 7),
    may_clear_all=False,
    may_clear_bed=False,
    marked_due=2,
    asking=None,
    state="open",
)
CAUSES = CausesView(
    headline="Likely: powdery mildew.",
    stop=None,
    cannot_tell=(),
    rule_out=("Downy mildew. At dawn: grey fuzz beneath?",),
    causes=(
        CauseRow("one", "Powdery mildew", "very likely, 91 %", (), ()),
        CauseRow("two", "Downy mildew", "unlikely, 8 %", (), ()),
        CauseRow("three", "Normal ageing", "unlikely, 5 %", (), ()),
    ),
    together=(),
    unexplained=("Nothing known explains: one limp leaf",),
    questions=(QuestionView("sign", "Does the powder wipe off?", "Use a finger.", "a look", ()),),
    would_change=(),
)


@pytest.fixture(autouse=True)
def still(monkeypatch: pytest.MonkeyPatch) -> None:
    """The views are made up, nothing moves and nothing blinks."""
    monkeypatch.setattr(walk, "current_stop", lambda _: STOP)
    monkeypatch.setattr(causes, "causes_at", lambda *_: CAUSES)
    monkeypatch.setattr("textual.constants.TEXTUAL_ANIMATIONS", "none")
    monkeypatch.setattr("textual.widgets.Input.cursor_blink", False)


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("page", ["stop", "causes"])
def test_the_picture_is_as_it_was(snap_compare, contexts, home: Path, size, page) -> None:
    async def opened(pilot) -> None:
        pilot.app.animation_level = "none"
        await Hand(pilot).opened()
        context = pilot.app.context
        pilot.app.push_page(StopPage(context) if page == "stop" else CausesPage(context, "stop"))
        await pilot.pause()

    assert snap_compare(BedwalkApp(contexts(home)), run_before=opened, terminal_size=size)
