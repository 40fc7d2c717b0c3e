"""What is followed over walks, as of revision 0001."""

from scout.store.migrations.first.columns import flag, link, real, table, text, time, whole


def create() -> None:
    """Make the tables."""
    _marked_plant()
    _measurement()
    _trouble()
    _job()
    _outcome()
    _hold()
    _ranking()


def _marked_plant() -> None:
    table(
        "marked_plant",
        link("planting_id", "planting"),
        text("label"),
        text("habit"),
        flag("control"),
        rules={
            "planting_id": "length(planting_id) = 36",
            "label": "length(label) >= 1 AND length(label) <= 200",
            "habit": "habit IN ('indeterminate', 'determinate', 'topped')",
        },
        indexes=(("planting_id",),),
    )


def _measurement() -> None:
    table(
        "measurement",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        link("marked_plant_id", "marked_plant"),
        link("stop_id", "stop", null=True),
        whole("top_leaf", null=True),
        whole("highest_diseased", null=True),
        whole("stripped_to", null=True),
        whole("newly_diseased", null=True),
        whole("leaves_standing", null=True),
        text("wet"),
        real("severity_pct", null=True),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "marked_plant_id": "length(marked_plant_id) = 36",
            "stop_id": "length(stop_id) = 36",
            "top_leaf": "top_leaf >= 0 AND top_leaf <= 200",
            "highest_diseased": "highest_diseased >= 0 AND highest_diseased <= 200",
            "stripped_to": "stripped_to >= 0 AND stripped_to <= 200",
            "newly_diseased": "newly_diseased >= 0 AND newly_diseased <= 100000",
            "leaves_standing": "leaves_standing >= 0 AND leaves_standing <= 100000",
            "wet": "wet IN ('wet', 'dry', 'not_felt')",
            "severity_pct": "severity_pct >= 0 AND severity_pct <= 100",
            "highest_diseased_to_top_leaf": "highest_diseased <= top_leaf",
            "stripped_to_to_top_leaf": "stripped_to <= top_leaf",
        },
        indexes=(("marked_plant_id", "observed_at"),),
    )


def _trouble() -> None:
    table(
        "trouble",
        link("planting_id", "planting"),
        text("cause", null=True),
        text("title"),
        time("opened_on"),
        time("closed_on", null=True),
        text("state"),
        rules={
            "planting_id": "length(planting_id) = 36",
            "cause": "length(cause) >= 1 AND length(cause) <= 60",
            "title": "length(title) >= 1 AND length(title) <= 200",
            "opened_on": "length(opened_on) = 10",
            "closed_on": "length(closed_on) = 10",
            "state": "state IN ('open', 'closed')",
            "opened_on_to_closed_on": "opened_on <= closed_on",
            "closed_has_a_day": "(state = 'closed') = (closed_on IS NOT NULL)",
        },
        indexes=(
            ("planting_id",),
            ("state", "opened_on"),
        ),
    )


def _job() -> None:
    table(
        "job",
        link("planting_id", "planting", null=True),
        link("bed_id", "bed", null=True),
        text("control", null=True),
        text("cause", null=True),
        link("trouble_id", "trouble", null=True),
        text("title"),
        time("due_on"),
        text("state"),
        text("skipped_why", null=True),
        time("done_at", null=True),
        time("look_again_on", null=True),
        link("stop_id", "stop", null=True),
        rules={
            "planting_id": "length(planting_id) = 36",
            "bed_id": "length(bed_id) = 36",
            "control": "length(control) >= 1 AND length(control) <= 60",
            "cause": "length(cause) >= 1 AND length(cause) <= 60",
            "trouble_id": "length(trouble_id) = 36",
            "title": "length(title) >= 1 AND length(title) <= 200",
            "due_on": "length(due_on) = 10",
            "state": "state IN ('open', 'done', 'skipped')",
            "skipped_why": "length(skipped_why) >= 1 AND length(skipped_why) <= 200",
            "done_at": "length(done_at) >= 10 AND length(done_at) <= 16",
            "look_again_on": "length(look_again_on) = 10",
            "stop_id": "length(stop_id) = 36",
            "done_has_a_time": "(state = 'done') = (done_at IS NOT NULL)",
        },
        indexes=(
            ("planting_id",),
            ("state", "due_on"),
            ("trouble_id",),
        ),
    )


def _outcome() -> None:
    table(
        "outcome",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        link("job_id", "job", null=True),
        link("trouble_id", "trouble", null=True),
        text("verdict"),
        text("sign"),
        text("note"),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "job_id": "length(job_id) = 36",
            "trouble_id": "length(trouble_id) = 36",
            "verdict": "verdict IN ('yes', 'no', 'cannot_tell')",
            "sign": "sign IN ('independent', 'clinic', 'later_course', 'agreement')",
            "note": "length(note) >= 0 AND length(note) <= 10000",
            "of_something": "job_id IS NOT NULL OR trouble_id IS NOT NULL",
        },
        indexes=(
            ("job_id",),
            ("trouble_id",),
        ),
    )


def _hold() -> None:
    table(
        "hold",
        link("planting_id", "planting"),
        text("reason"),
        time("until_at", null=True),
        time("re_entry_until_at", null=True),
        text("note"),
        rules={
            "planting_id": "length(planting_id) = 36",
            "reason": "length(reason) >= 1 AND length(reason) <= 200",
            "until_at": "length(until_at) >= 10 AND length(until_at) <= 16",
            "re_entry_until_at": "length(re_entry_until_at) >= 10 AND length(re_entry_until_at) <= 16",
            "note": "length(note) >= 0 AND length(note) <= 10000",
        },
        indexes=(("planting_id",),),
    )


def _ranking() -> None:
    table(
        "ranking",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        link("planting_id", "planting"),
        link("stop_id", "stop", null=True),
        text("knowledge_hash"),
        text("evidence"),
        text("answer"),
        text("asked", null=True),
        text("chosen", null=True),
        text("confirmed", null=True),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "planting_id": "length(planting_id) = 36",
            "stop_id": "length(stop_id) = 36",
            "knowledge_hash": "length(knowledge_hash) >= 1 AND length(knowledge_hash) <= 200",
            "evidence": "length(evidence) >= 1 AND length(evidence) <= 1000000",
            "answer": "length(answer) >= 1 AND length(answer) <= 1000000",
            "asked": "length(asked) >= 1 AND length(asked) <= 60",
            "chosen": "length(chosen) >= 1 AND length(chosen) <= 60",
            "confirmed": "length(confirmed) >= 1 AND length(confirmed) <= 60",
        },
        indexes=(("planting_id", "observed_at"),),
    )
