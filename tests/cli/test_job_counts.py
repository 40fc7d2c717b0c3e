"""Did it work, in lines: counts, the answer, its JSON."""


def taken(bedwalk) -> str:
    for words in (
        ("walk", "start"),
        ("walk", "find", "leaf.grey_purple_fuzz_beneath", "--looked", "8", "--affected", "3"),
        ("walk", "take", "downy_mildew_cucurbit", "base_watering"),
    ):
        ran = bedwalk(*words)
        assert ran.code == 0, ran.err
    (job,) = bedwalk("jobs", "--json").json
    return str(job["id"])


def test_a_job_is_counted_done_counted_again_and_answered(bedwalk) -> None:
    job = taken(bedwalk)
    assert "To count: newly spotted leaves on 5 plants." in bedwalk("jobs", "count", job).out
    assert bedwalk("jobs", "count", job, "--before", "30/5").out == "Before 30/5 kept.\n"
    assert "Not done yet." in bedwalk("jobs", "outcome", job).out
    bedwalk("jobs", "done", job, "--again", "7")
    early = bedwalk("jobs", "outcome", job, "--after", "2/5", "--json", on="2026-07-23").json
    assert (early["verdict"], early["why"], early["before"], early["after"]) == (
        "cannot_tell",
        "too_early",
        [30, 5],
        [2, 5],
    )
    late = bedwalk("jobs", "outcome", job, "--after", "2/5", "--untreated-before", "28/5", "--untreated-after", "26/5",
                   "--json", on="2026-08-09").json  # fmt: skip
    assert (late["verdict"], late["efficacy_by"], late["bed"]) == ("yes", "henderson_tilton", "Long bed")
    said = bedwalk("jobs", "outcome", job, "--keep", on="2026-08-09").out
    assert "Yes, it worked." in said and "fewer than untreated (Henderson-Tilton)" in said
    assert [one["look_again"] for one in bedwalk("jobs", "--json", on="2026-08-09").json] == [False]


def test_a_count_that_is_none_keeps_nothing(bedwalk) -> None:
    job = taken(bedwalk)
    refused = bedwalk("jobs", "count", job, "--before", "4/5", "--after", "many")
    assert refused.complaint.startswith("bedwalk: --after: 'many' is no count")
    assert bedwalk("jobs", "outcome", job, "--json").json["before"] is None


def test_jobs_are_listed_by_bed(bedwalk) -> None:
    taken(bedwalk)
    assert bedwalk("jobs", "list", "--by", "bed").out == bedwalk("jobs").out
