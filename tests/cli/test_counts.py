"""Pest counts and picks in lines."""


def test_a_pest_is_counted_against_its_mark(bedwalk) -> None:
    listed = bedwalk("counts", "marks", "Long bed")
    assert (
        "squash_bug_eggs: squash bug egg groups, 1 on each of the plants" in listed.out
        and "sprayed field" in listed.out
    )
    answer = bedwalk("counts", "mark", "Long bed", "squash_bug_eggs", "5,1,0", "--json").json
    assert (answer["found_n"], answer["looked_n"], answer["side"], answer["mark"]) == (6, 3, "over", 1.0)
    said = bedwalk("counts", "mark", "Long bed", "squash_bug_eggs", "3/3").out
    assert (
        "3 on 3 plants: 1 each (0.21-2.9); the mark is 1 each." in said
        and "look at 5 more plants (all that are left)" in said
    )
    assert "There is no mark 'wolves'" in bedwalk("counts", "mark", "Long bed", "wolves", "3/3").complaint
    assert "is no count" in bedwalk("counts", "mark", "Long bed", "squash_bug_eggs", "some").complaint


def test_the_picks_are_told(bedwalk) -> None:
    bedwalk("walk", "start")
    bedwalk("walk", "pick", "--sound", "12", "--odd", "7")
    shown = bedwalk("counts", "picks", "Long bed").out
    assert "2026-07-22: 12 sound, 7 odd" in shown and "Odd: 7 of 19 in the last pick, 37 %" in shown
    assert bedwalk("counts", "picks", "Long bed", "--json").json["odd_share"][:2] == [7, 19]
