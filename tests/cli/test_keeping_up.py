"""`bedwalk keeping-up`: the contract for scripts, the refusals, and the sentence a grower reads."""

from pathlib import Path

import pytest

HEAD = "plant,date,top_leaf,highest_diseased,stripped_to,newly_diseased,leaves_standing"
LOSING = [
    "A,2026-07-01,16,5,0,,16",
    "B,2026-07-01,14,3,0,,14",
    "A,2026-07-08,18,8,3,4,15",
    "B,2026-07-08,16,6,3,3,13",
    "A,2026-07-15,19,11,6,3,13",
    "B,2026-07-15,18,9,5,4,13",
    "A,2026-07-22,21,14,8,3,13",
    "B,2026-07-22,19,12,8,3,11",
]
CONTRACT = {
    "verdict",
    "probability_losing",
    "front_per_day",
    "growth_per_day",
    "intervals",
    "clean_depth_below_six_on",
    "more_visits_needed",
    "next_strip_due",
    "refusals",
}  # the keys promised to scripts


@pytest.fixture
def counts(tmp_path: Path):
    def written(rows: list[str], more: str = "") -> str:
        file = tmp_path / "marked.csv"
        file.write_text("\n".join([HEAD + more, *rows]) + "\n", encoding="utf-8")
        return str(file)

    return written


def test_a_script_gets_every_promised_key(bare, counts) -> None:
    one = bare("keeping-up", "--csv", counts(LOSING), "--json").json
    assert one.keys() >= CONTRACT
    assert one["verdict"] == "losing" and one["probability_losing"] > 0.85 and one["refusals"] == []
    low, high = one["intervals"]["front_minus_growth_per_day"]
    # fronts 4 to 13 and tops 15 to 20 in 21 days: 9/21 - 5/21 = 0.19 a day, by hand
    assert low < 4 / 21 < high
    assert one["clean_depth_below_six_on"] == "2026-07-28"  # one leaf above six at 0.18 a day: six days on


def test_a_planting_column_gives_a_list_of_verdicts(bare, counts) -> None:
    rows = [f"{row},north" for row in LOSING] + [f"{row},south" for row in LOSING[:4]]
    answers = bare("keeping-up", "--csv", counts(rows, ",planting"), "--json").json
    assert [(one["planting"], one["verdict"]) for one in answers] == [("north", "losing"), ("south", "cannot_tell")]
    assert answers[1]["more_visits_needed"] >= 2  # four visits at least, and two are made


@pytest.mark.parametrize("disease", ["late_blight", "Late blight", "downy mildew of something", "bacterial speck"])
def test_where_stripping_is_not_the_measure_there_is_no_verdict(bare, counts, disease: str) -> None:
    one = bare("keeping-up", "--csv", counts([f"{row},{disease}" for row in LOSING], ",disease"), "--json").json
    assert (one["verdict"], one["probability_losing"]) == ("cannot_tell", None)
    assert "not the measure" in one["refusals"][0] and one["next_strip_due"] is None


def test_septoria_gives_a_date_for_the_next_stripping_and_early_blight_none(bare, counts) -> None:
    # Septoria: spot at 6 days, spores at 14 (INRAE): eight days less one after 22 July.
    septoria = [f"{row},septoria_leaf_spot" for row in LOSING]
    assert bare("keeping-up", "--csv", counts(septoria, ",disease"), "--json").json["next_strip_due"] == "2026-07-29"
    early = [f"{row},early_blight" for row in LOSING]
    one = bare("keeping-up", "--csv", counts(early, ",disease"), "--json").json
    assert one["next_strip_due"] is None and any("break the cycle" in line for line in one["lines"])


def test_severity_is_never_part_of_the_answer(bare, counts) -> None:
    said = bare("keeping-up", "--csv", counts(LOSING)).out
    assert "severity" not in said.casefold() and "Losing: the spots climb faster" in said


def test_the_fruit_question_is_asked_whole(refuses) -> None:
    assert "together" in refuses("keeping-up", "--planting", "tomato", "--fruit-leaf", "8").complaint


def test_plants_that_stop_by_themselves_are_judged_by_their_fruit(bedwalk) -> None:
    bedwalk("marked", "add", "tomato", "red tape", "--habit", "determinate")
    for day, front in (("2026-07-01", "2"), ("2026-07-08", "2"), ("2026-07-15", "3"), ("2026-07-22", "3")):
        bedwalk("marked", "measure", "tomato", "red tape", "--top", "14", "--highest", front, "--on", day)
    bare = bedwalk("keeping-up", "--planting", "tomato", "--json").json
    assert bare["verdict"] == "cannot_tell" and "standing still is normal" in bare["sentence"]
    asked = ("keeping-up", "--planting", "tomato", "--fruit-leaf")
    soon = bedwalk(*asked, "9", "--ripe-on", "2026-07-29", "--json").json
    assert soon["verdict"] == "keeping_up" and "keep the plants" in soon["sentence"]
    late = bedwalk(*asked, "3", "--ripe-on", "2026-09-30", "--json").json
    assert late["verdict"] == "losing"


def test_the_knife_is_never_a_go_while_the_forecast_is_not_known(bedwalk) -> None:
    bedwalk("marked", "add", "tomato", "red tape")
    now = ("marked", "measure", "tomato", "red tape", "--top", "20", "--highest", "6", "--stripped-to", "2")
    bedwalk(*now, "--standing", "18", "--leaves", "dry")
    before = bedwalk("keeping-up", "--planting", "tomato", "--json").json["before_the_knife"]
    assert before["answer"] == "wait" and "forecast" in before["ask"][0]
    bedwalk("weather", "forecast", "2026-07-23", "29")
    assert "Strip today: wait." in bedwalk("keeping-up", "--planting", "tomato").out  # the day after is not known
    bedwalk("weather", "forecast", "2026-07-24", "30")
    said = bedwalk("keeping-up", "--planting", "tomato").out
    assert "Strip today: yes." in said and "red tape: at most" in said
    bedwalk("weather", "forecast", "2026-07-23", "37")
    assert "Strip today: wait." in bedwalk("keeping-up", "--planting", "tomato").out


def test_figures_come_from_the_same_file_as_lines_and_as_json(bare, counts) -> None:
    one = bare("keeping-up", "--csv", counts(LOSING), "--figures", "--json").json
    # Shares 5/16 and 3/14, ..., 14/21 and 12/19: 26.3, 41.0, 53.9, 64.9 % a week apart (by hand).
    assert one["audpc_pct_days"] == pytest.approx(
        7 * (0.263393 / 2 + 0.409722 + 0.539474 + 0.649123 / 2) * 100, rel=1e-4
    )
    assert {fit["model"] for fit in one["rates"]} == {"logistic", "gompertz", "monomolecular"}
    assert "Apparent infection rate" in bare("keeping-up", "--csv", counts(LOSING), "--figures").out


def test_a_sheet_to_print_is_written_and_nothing_else_with_it(bare, counts, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.html"
    said = bare("keeping-up", "--csv", counts(LOSING), "--print", str(sheet)).out
    assert str(sheet) in said and "Losing: the spots climb" in sheet.read_text(encoding="utf-8")
    for other in ("--json", "--figures"):
        refused = bare("keeping-up", "--csv", counts(LOSING), "--print", str(sheet), other)
        assert refused.code == 1 and "--print writes a sheet" in refused.err
