"""Holds in lines."""


def test_a_hold_is_entered_listed_mended_and_taken_back(bedwalk) -> None:
    made = bedwalk(
        "holds", "add", "Long bed", "--used", "2026-07-21 06:30", "--harvest-days", "7", "--entry-hours", "12"
    )
    assert "Do not eat until 28 July 06:30: labelled product." in made.out and "Copy both from the label" in made.out
    (hold,) = bedwalk("holds", "--json").json
    assert (hold["eat_from"], hold["enter_from"], hold["harvest_interval_d"]) == (
        "2026-07-28T06:30",
        "2026-07-21T18:30",
        7,
    )
    assert hold["place"] == "Long bed · Cucumber Testina" and hold["lines"]
    assert "29 July" in bedwalk("holds", "label", "1", "--harvest-days", "8", "--entry-hours", "12").out
    bedwalk("walk", "undo")
    bedwalk("walk", "undo")
    assert bedwalk("holds").out == "Nothing is on hold.\n"


def test_days_that_are_not_known_stand_until_they_are(bedwalk) -> None:
    assert "until you know what its label says" in bedwalk("holds", "add", "Long bed", "--used", "2026-07-20").out
    assert "do not eat until you know" in bedwalk("holds", on="2026-09-20").out


def test_a_wrong_hold_is_refused_in_one_sentence(bedwalk) -> None:
    assert "lies ahead" in bedwalk("holds", "add", "Long bed", "--used", "2026-07-23").complaint
    assert "no time of day" in bedwalk("holds", "add", "Long bed", "--used", "25:30").complaint
    assert "Give the hold's number" in bedwalk("holds", "label", "3").complaint
