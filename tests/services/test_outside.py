"""What reaches the garden from outside speaks for some causes and never against any."""

import pytest

from scout.errors import BadInput
from scout.services.evidence import evidence_for
from scout.services.garden import bed_names
from scout.services.outside import note_brought_in, note_near_report, outside_lines

from ..small_garden import plant_of


def circumstances(context, crop: str):
    return evidence_for(context, plant_of(context, crop)).circumstances


def bed_of(context, name: str) -> str:
    return next(bed_id for bed_id, known, _ in bed_names(context) if known == name)


def test_nothing_noted_says_nothing(context) -> None:
    assert not {"straw_manure_brought_in", "disease_near"} & set(circumstances(context, "cucumber"))
    assert outside_lines(context) == ()


def test_straw_for_one_bed_speaks_there_alone(context) -> None:
    note_brought_in(context, "straw or hay", bed_of(context, "Long bed"))
    assert circumstances(context, "cucumber")["straw_manure_brought_in"] is True
    assert "straw_manure_brought_in" not in circumstances(context, "beet")
    assert outside_lines(context) == ("2026-07-22 brought in: straw or hay (Long bed)",)


def test_manure_for_the_whole_garden_speaks_everywhere_and_plants_are_no_manure(context) -> None:
    note_brought_in(context, "plants")
    assert "straw_manure_brought_in" not in circumstances(context, "beet")
    note_brought_in(context, "manure")
    assert circumstances(context, "beet")["straw_manure_brought_in"] is True


def test_a_report_speaks_for_the_crops_that_can_have_it(context) -> None:
    note_near_report(context, "downy_mildew_cucurbit", 12.0)
    assert circumstances(context, "cucumber")["disease_near"] is True
    assert "disease_near" not in circumstances(context, "beet")


def test_a_report_from_far_away_or_long_ago_does_not_speak(context, clock) -> None:
    note_near_report(context, "downy_mildew_cucurbit", 400.0)
    assert "disease_near" not in circumstances(context, "cucumber")
    note_near_report(context, "downy_mildew_cucurbit")
    clock.on(9, 1)
    assert "disease_near" not in circumstances(context, "cucumber")


def test_a_report_of_what_does_not_travel_is_refused(context) -> None:
    with pytest.raises(BadInput, match="travel"):
        note_near_report(context, "heat_wilt")
