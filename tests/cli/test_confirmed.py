"""What a trouble turned out to be, told at a prompt line."""


def test_a_clinic_s_answer_is_kept_and_listed(bedwalk) -> None:
    assert bedwalk("jobs", "confirmed").out == "Nothing confirmed yet.\n"
    kept = bedwalk("jobs", "confirm", "cucumber", "powdery_mildew_cucurbit", "--sign", "clinic")
    assert kept.out == "Kept: Long bed/Cucumber Testina was powdery_mildew_cucurbit (clinic)\n"
    (row,) = bedwalk("jobs", "confirmed", "--json").json
    assert row == {"crop": "cucumber", "cause": "powdery_mildew_cucurbit", "was_n": 1, "of_n": 1}


def test_a_cause_of_another_crop_is_refused(bedwalk) -> None:
    assert "not known to have" in bedwalk("jobs", "confirm", "cucumber", "late_blight").complaint


def test_answers_are_taken_out_of_the_count(bedwalk) -> None:
    for _ in range(2):
        bedwalk("jobs", "confirm", "cucumber", "powdery_mildew_cucurbit", "--sign", "clinic")
    assert "2 of 2; odds at first sight" in bedwalk("jobs", "confirmed").out
    assert "Say which cause" in bedwalk("jobs", "forget").complaint
    assert bedwalk("jobs", "forget", "powdery_mildew_cucurbit").out.startswith("Taken out of the count: 2.")
    assert bedwalk("jobs", "confirmed").out == "Nothing confirmed yet.\n"
    bedwalk("walk", "undo")
    assert "2 of 2" in bedwalk("jobs", "confirmed").out
