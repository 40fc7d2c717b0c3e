"""A complete walk purely by flags, and each of its commands."""

import pytest


def test_a_walk_over_two_beds_is_done_by_flags_alone(bedwalk) -> None:
    plan = bedwalk("walk", "plan", "--json").json
    assert [stop["bed"] for stop in plan["stops"]] == ["Long bed", "Mixed bed", "Mixed bed", "Black tub"]

    stop = bedwalk("walk", "start", "--json").json["stop"]
    assert (stop["number"], stop["total"], stop["bed"]) == (1, 4, "Long bed")
    turned = next(look for look in stop["looks"] if "leaf.angular_patches" in [s["id"] for s in look["symptoms"]])
    first = bedwalk("walk", "answer", "1", "clear", "--looked", "8")
    assert first.code == 0 and "clear, 8 plants looked at" in first.out

    found = bedwalk(
        *("walk", "find", "leaf.angular_patches", "--looked", "8", "--affected", "3"),
        *("--severity", "5,2,0", "--which", "3rd and 5th from the path", "--json"),
    ).json
    assert (found["looked_n"], found["affected_n"], found["severity_pct"]) == (8, 3, [5.0, 2.0, 0.0])
    now = bedwalk("walk", "next", "--json").json
    assert next(look["state"] for look in now["looks"] if look["id"] == turned["id"]) == "seen"

    # yellow tiles along the veins with grey-purple fuzz beneath: downy mildew (case in tests/knowledge/cases)
    asked = bedwalk("walk", "reply", "leaf.grey_purple_fuzz_beneath", "yes", "--json").json
    assert asked["causes"][0]["id"] == "downy_mildew_cucurbit"
    assert bedwalk("walk", "causes", "--json").json["causes"][0]["id"] == "downy_mildew_cucurbit"
    page = bedwalk("walk", "causes", "downy_mildew_cucurbit")
    assert "Controls" in page.out and "Keep out while it is wet" in page.out

    taken = bedwalk("walk", "take", "downy_mildew_cucurbit", "base_watering")
    assert taken.code == 0 and "due 22 July, look again" in taken.out
    assert [job["title"] for job in bedwalk("jobs", "--json").json] == ["Water at the base, in the morning"]

    assert "Stop 2 of 4: Mixed bed" in bedwalk("walk", "done").out
    over = bedwalk("walk", "clear", "bed")
    assert "Mixed bed: clear." in over.out and "Stop 4 of 4: Black tub" in over.out
    ended = bedwalk("walk", "end")
    assert "Walk done: 4 stops, 2 clear, 2 findings." in ended.out
    assert "patches with straight sides, along veins, 3 of 8" in ended.out
    assert "No walk is open" in bedwalk("walk", "next").complaint


def test_the_last_stop_closed_ends_the_walk_and_sums_it_up(bedwalk) -> None:
    bedwalk("walk", "start")
    for _ in range(3):
        last = bedwalk("walk", "done", "--json").json
        assert last["stop"] is not None
    summed = bedwalk("walk", "done")
    assert "Walk done: 4 stops, 0 clear, 0 findings." in summed.out


def test_last_visit_comes_first_at_the_next_walk(bedwalk) -> None:
    bedwalk("walk", "start")
    assert bedwalk("walk", "note", "string is loose").code == 0
    bedwalk("walk", "clear", "glance")
    bedwalk("walk", "end")
    again = bedwalk("walk", "start", "--all", on="2026-07-24")
    lines = again.out.splitlines()
    assert lines[1] == "Last time: 22 July: string is loose · glanced over 8, nothing caught the eye"


def test_a_clear_stop_needs_a_number_where_the_plants_were_never_counted(bedwalk) -> None:
    bedwalk("walk", "start")
    for _ in range(3):
        bedwalk("walk", "done")
    assert "--looked N" in bedwalk("walk", "clear", "glance").complaint
    assert "2 plants looked at" in bedwalk("walk", "clear", "glance", "--looked", "2").out


def test_every_look_is_refused_where_a_problem_is_open(bedwalk) -> None:
    bedwalk("walk", "start")
    bedwalk("walk", "find", "leaf.angular_patches", "--affected", "1")
    bedwalk("walk", "find", "leaf.grey_purple_fuzz_beneath", "--affected", "1")
    bedwalk("walk", "take", "downy_mildew_cucurbit", "base_watering")
    assert "one by one" in bedwalk("walk", "clear", "all").complaint


def test_a_finding_and_its_counts_are_one_act_for_undo(bedwalk) -> None:
    bedwalk("walk", "start")
    bedwalk("walk", "find", "leaf.angular_patches", "--looked", "8", "--affected", "3", "--severity", "5")
    assert "Taken back: seen: “patches with straight sides" in bedwalk("walk", "undo").out
    assert bedwalk("walk", "next", "--json").json["findings"] == []


def test_a_refused_finding_leaves_nothing_behind(bedwalk) -> None:
    bedwalk("walk", "start")
    assert (
        "9 affected of 8"
        in bedwalk("walk", "find", "leaf.angular_patches", "--looked", "8", "--affected", "9").complaint
    )
    stop = bedwalk("walk", "next", "--json").json
    assert stop["findings"] == [] and {look["state"] for look in stop["looks"]} == {"open"}


def test_looked_for_and_not_seen_is_kept_as_such(bedwalk) -> None:
    bedwalk("walk", "start")
    kept = bedwalk("walk", "find", "leaf.angular_patches", "--looked", "5", "--not-seen", "--json").json
    assert (kept["seen"], kept["looked_n"], kept["affected_n"]) == (False, 5, None)


def test_what_a_stop_gives_besides_is_kept(bedwalk) -> None:
    bedwalk("walk", "start")
    bedwalk("walk", "pick", "--sound", "5")
    assert "5 sound, 1 odd" in bedwalk("walk", "pick", "--odd", "1").out
    assert bedwalk("walk", "water", "timer_failed").out == "Noted: the timer failed\n"
    enemy = bedwalk("walk", "friend", "nobody").complaint.split("there are: ")[1].split(",")[0]
    assert bedwalk("walk", "friend", enemy).out.startswith("Noted: ")
    assert "Stop 2 of 4" in bedwalk("walk", "later", "the leaves are wet").out
    assert "Left for later" in bedwalk("walk", "end").out


def test_what_does_not_fit_into_the_minutes_waits_with_a_reason(bedwalk) -> None:
    plan = bedwalk("walk", "plan", "--minutes", "2,5", "--json").json
    assert plan["minutes"] <= 2.5
    assert plan["deferred"] and all(stop["deferred_why"] for stop in plan["deferred"])


def test_a_plan_has_clock_times_from_when_it_begins(bedwalk) -> None:
    plan = bedwalk("walk", "plan", "--from", "6:30", "--json").json
    assert plan["stops"][0]["at"] == "6:30" and plan["stops"][1]["at"] > "6:30"
    assert "1. 6:30 " in bedwalk("walk", "plan", "--from", "6.30").out
    assert "write the time like 6:30" in bedwalk("walk", "plan", "--from", "half six").complaint


def test_alerts_are_listed_and_put_away_with_a_reason(bedwalk) -> None:
    assert bedwalk("walk", "alerts").out == "Nothing out of the way today.\n"
    bedwalk("walk", "start")
    bedwalk("walk", "clear", "all")
    bedwalk("walk", "clear", "bed")
    bedwalk("walk", "clear", "all", "--looked", "2")
    for day in ("2026-07-23", "2026-07-24", "2026-07-25"):
        bedwalk("weather", "add", "30 21 0 wet", "--on", day)
    later = ("--on", "2026-07-29")
    said = bedwalk("walk", "alerts", *later, "--json").json
    assert said and said[0]["title"].startswith("Wet nights")
    assert "Put away until it changes" in bedwalk("walk", "put-away", "1", "seen to", *later).out
    assert said[0]["title"] not in [one["title"] for one in bedwalk("walk", "alerts", *later, "--json").json]
    assert "There is no alert 9" in bedwalk("walk", "put-away", "9", "seen to", *later).complaint


def test_a_walk_that_is_open_goes_on(bedwalk) -> None:
    bedwalk("walk", "start")
    bedwalk("walk", "done")
    assert "Stop 2 of 4" in bedwalk("walk", "start").out


def test_nothing_due_is_said_with_the_way_to_walk_anyway(bedwalk) -> None:
    bedwalk("walk", "start")
    bedwalk("walk", "clear", "all")
    bedwalk("walk", "clear", "bed")
    bedwalk("walk", "clear", "all", "--looked", "2")
    assert "walk start --all" in bedwalk("walk", "start").complaint


def test_a_squash_bitter_once_stands_before_any_ranking(bedwalk) -> None:
    bedwalk("garden", "pull", "Cucumber", "--why", "done")
    bedwalk("garden", "add-planting", "--bed", "Long bed", "--crop", "zucchini", "--sown", "2026-05-20")
    assert bedwalk("walk", "start", "--json").json["stop"]["crop_id"] == "summer_squash"
    bedwalk("walk", "find", "fruit.bitter_taste")
    found = bedwalk("walk", "causes")
    assert found.out.startswith("! ") and "What would tell most" not in found.out
    assert all(line.startswith("! ") for line in found.out.splitlines())


@pytest.mark.parametrize("words", [("walk",), ("walk", "--help"), ("walk", "plan", "--help")])
def test_nobody_at_the_terminal_is_told_what_to_use(bedwalk, words) -> None:
    ran = bedwalk(*words)
    assert ("Nobody is there to answer" in ran.complaint) if words == ("walk",) else ran.code == 0


def test_any_planting_is_gone_to_out_of_order(bedwalk) -> None:
    alone = bedwalk("walk", "go", "Black tub", "--json").json["stop"]
    assert (alone["bed"], alone["total"], alone["why"]) == ("Black tub", 1, "you chose to look")
    assert bedwalk("walk", "go", "Long bed", "--json").json["stop"]["total"] == 2
    assert bedwalk("walk", "go", "Nowhere").code == 1
