"""The whole walk at a prompt, line by line, and what is asked when a flag is left out."""


def test_the_whole_walk_is_done_at_a_prompt(bedwalk) -> None:
    answers = [
        "h",
        "c 1",
        "s 2",  # something seen at the second look
        "1",  # the first symptom of that look
        "3",  # on three plants
        *("", "", ""),  # leaf area, question, cause: passed over
        "+ 5",
        "w",
        "2",
        "i the string is loose",
        "n",
        "a",
        "x",  # no such letter
        "l the leaves are wet",
        "g 2",
    ]
    walked = bedwalk("walk", typed="\n".join(answers) + "\n")
    assert walked.code == 0, walked.err
    assert "Stop 1 of 4: Long bed" in walked.out and "Stop 4 of 4: Black tub" in walked.out
    assert "3 of 8 plants" in walked.out and "Picked today: 5 sound, 0 odd" in walked.out
    assert "Give one of these letters" in walked.out
    assert "Walk done: 4 stops, 2 clear, 1 finding." in walked.out
    assert "\x1b" not in walked.out


def test_a_walk_left_at_the_prompt_goes_on_where_it_stopped(bedwalk) -> None:
    assert "goes on where it stopped" in bedwalk("walk", typed="g\nq\n").out
    assert "Stop 2 of 4" in bedwalk("walk", typed="q\n").out


def test_from_finding_to_job_at_the_prompt(bedwalk) -> None:
    answers = ["f angular patches", "1", "3", "5,2,0", "n", "", "1", "1", "y", "u", "q"]
    walked = bedwalk("walk", typed="\n".join(answers) + "\n")
    assert walked.code == 0, walked.err + walked.out
    assert "Seen: patches with straight sides, along veins, 3 of 8 plants, leaf area 5/2/0 %" in walked.out
    assert "look again" in walked.out and "Taken back" in walked.out


def test_what_is_refused_at_the_prompt_is_said_and_the_walk_goes_on(bedwalk) -> None:
    walked = bedwalk("walk", typed="c 99\nf leaf.angular_patches\n9\nq\n")
    assert "There is no look “99” here" in walked.out
    assert "9 affected of 8 looked at cannot be" in walked.out
    assert bedwalk("walk", "next", "--json").json["findings"] == []


def test_plain_words_are_confirmed_at_the_prompt(bedwalk) -> None:
    bedwalk("walk", "start")
    kept = bedwalk("walk", "find", "angular patches", "--affected", "2", "--json", typed="1\n")
    assert kept.code == 0 and '"symptom": "leaf.angular_patches"' in kept.out
    assert "Nothing was kept" in bedwalk("walk", "find", "angular patches", typed="\n").complaint


def test_the_end_of_typing_leaves_what_was_kept(bedwalk) -> None:
    stopped = bedwalk("walk", typed="g\n")
    assert stopped.code == 1 and "Traceback" not in stopped.err
    assert bedwalk("walk", "next", "--json").json["number"] == 2


def test_a_reason_is_asked_for(bedwalk) -> None:
    assert bedwalk("garden", "pull", "Cucumber", typed="\nall dead\n").out.endswith("(all dead)\n")


def test_a_planting_a_count_and_a_job_are_asked_for(bedwalk) -> None:
    assert bedwalk("garden", "count", typed="2\n5\n").out.endswith("Mixed bed/Tomato: 5 plants\n")
    assert bedwalk("garden", "stage", typed="1\nfinishing\n").out.endswith("Testina: finishing\n")
    assert bedwalk("marked", "add", typed="2\nred tape\n").code == 0
    assert bedwalk("marked", "measure", typed="2\nred tape\n14\n4\n\n\n\n").out.endswith("new –\n")
    bedwalk("walk", "start")
    bedwalk("walk", "find", "leaf.angular_patches", "--affected", "2")
    bedwalk("walk", "take", "downy_mildew_cucurbit", "base_watering")
    assert "Done: Water at the base" in bedwalk("jobs", "done", typed="1\n").out
    assert "Kept: no" in bedwalk("jobs", "judge", typed="1\n2\n").out


def test_with_nobody_to_ask_the_missing_word_is_named(refuses) -> None:
    assert "PLANTING is missing" in refuses("garden", "count").complaint
    assert "PLANTS is missing" in refuses("garden", "count", "Cucumber").complaint
    assert "JOB is missing" in refuses("jobs", "done").complaint
    assert "LABEL is missing" in refuses("marked", "add", "Cucumber").complaint
