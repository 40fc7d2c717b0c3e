"""Forty stops by keys alone: 32 clean, 8 with a finding, its count and a chosen control, within 200 keys."""

from pathlib import Path

import pytest

from scout.services import garden, site, troubles, walk
from scout.services.context import Context

from .conftest import PHONE

STOPS, FINDINGS, MOST_KEYS, MOST_A_FINDING = 40, 8, 200, 12
"""A clean stop costs at most 3 keys and a full finding at most 12: the design's own budget."""
CROPS = ("cucumber", "summer_squash", "snap_bean", "beet", "sweet_pepper")


@pytest.fixture
def forty(tmp_path, clock) -> Path:
    """Forty beds of one planting each, eight plants in every bed."""
    made = Context(tmp_path / "forty", clock=clock)
    site.create_garden(made, "Forty beds", zone="UTC", first_frost="10-28", last_frost="04-20")
    with made.write():
        for n in range(STOPS):
            bed = garden.add_bed(made, f"Bed {n + 1}")
            day = {"sown_on": "2026-05-20"} if CROPS[n % 5] != "sweet_pepper" else {"set_out_on": "2026-05-10"}
            garden.add_planting(made, (bed,), CROPS[n % 5], plants_n=8, **day)
    made.engine.dispose()
    return made.root


async def found(hand, store) -> int:
    """Note what is seen at the first look, on 3 plants, and take the first control that may be taken; return keys."""
    before = hand.keys_n
    await hand.press("1", "1", "3", "enter")
    while hand.name == "ChoicePage":
        await hand.press("4" if "Lowest" in hand.head or "Outer" in hand.head else "escape")
    assert hand.name == "CausesPage"
    await hand.press("1")
    free = next(n for n, control in enumerate(hand.page._controls, 1) if control.refused is None)
    await hand.press(str(free))
    if hand.name == "ChoicePage":
        await hand.press("1")
    assert hand.name == "StopPage"
    await hand.press("n")
    return hand.keys_n - before


async def test_forty_stops_take_at_most_two_hundred_keys(opening, forty, garden_of, record_property) -> None:
    async with opening(size=PHONE, folder=forty) as hand:
        store = garden_of(forty)
        await hand.press("w", "enter")
        dearest = 0
        for n in range(STOPS):
            assert hand.name == "StopPage" and hand.head.startswith(f"{n + 1}/{STOPS} ")
            if n % 5 == 2:
                dearest = max(dearest, await found(hand, store))
            else:
                await hand.press("g" if n % 2 else "a")
        assert hand.name == "SummaryPage"
        assert hand.head == f"Walk done: {STOPS} stops, {STOPS - FINDINGS} clear, {FINDINGS} findings"
        keys = hand.keys_n
    record_property("keys", keys)
    print(f"\n{STOPS} stops, {FINDINGS} findings: {keys} keys; the dearest finding took {dearest}")
    assert keys <= MOST_KEYS and dearest <= MOST_A_FINDING
    assert walk.open_walk(store) is None
    assert len(troubles.job_lines(store)) == FINDINGS
    from scout.store import findings

    with store.read() as session:
        kept = [
            one
            for plant in garden.planted(store)
            for one in findings.findings_since(session=session, planting_id=plant.planting_id, since="2026-07-22")
        ]
    assert [(one.affected_n, one.looked_n, one.state) for one in kept] == [(3, 8, "seen")] * FINDINGS
