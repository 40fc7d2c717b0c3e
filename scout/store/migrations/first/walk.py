"""Walks, stops and findings, as of revision 0001."""

from scout.store.migrations.first.columns import link, real, table, text, time, whole


def create() -> None:
    """Make the tables."""
    _walk()
    _stop()
    _look_answer()
    _clearance()
    _finding()


def _walk() -> None:
    table(
        "walk",
        time("started_at"),
        whole("started_offset_min", null=True),
        time("ended_at", null=True),
        whole("ended_offset_min", null=True),
        text("mode"),
        rules={
            "started_at": "length(started_at) >= 10 AND length(started_at) <= 16",
            "started_offset_min": "started_offset_min >= -840 AND started_offset_min <= 840",
            "ended_at": "length(ended_at) >= 10 AND length(ended_at) <= 16",
            "ended_offset_min": "ended_offset_min >= -840 AND ended_offset_min <= 840",
            "mode": "length(mode) >= 1 AND length(mode) <= 60",
        },
        indexes=(("started_at",),),
    )


def _stop() -> None:
    table(
        "stop",
        link("walk_id", "walk"),
        link("planting_id", "planting"),
        link("bed_id", "bed"),
        whole("position"),
        text("why"),
        text("state"),
        text("deferred_why", null=True),
        text("asking", null=True),
        text("note"),
        time("opened_at", null=True),
        time("closed_at", null=True),
        rules={
            "walk_id": "length(walk_id) = 36",
            "planting_id": "length(planting_id) = 36",
            "bed_id": "length(bed_id) = 36",
            "position": "position >= 0 AND position <= 10000",
            "why": "length(why) >= 1 AND length(why) <= 200",
            "state": "state IN ('open', 'done', 'skipped', 'deferred')",
            "deferred_why": "length(deferred_why) >= 1 AND length(deferred_why) <= 200",
            "asking": "length(asking) >= 1 AND length(asking) <= 200",
            "note": "length(note) >= 0 AND length(note) <= 10000",
            "opened_at": "length(opened_at) >= 10 AND length(opened_at) <= 16",
            "closed_at": "length(closed_at) >= 10 AND length(closed_at) <= 16",
        },
        indexes=(
            ("planting_id",),
            ("walk_id", "position"),
        ),
    )


def _look_answer() -> None:
    table(
        "look_answer",
        link("stop_id", "stop"),
        text("look_id"),
        text("answer"),
        whole("looked_n", null=True),
        rules={
            "stop_id": "length(stop_id) = 36",
            "look_id": "length(look_id) >= 1 AND length(look_id) <= 60",
            "answer": "answer IN ('clear', 'seen', 'skip')",
            "looked_n": "looked_n >= 0 AND looked_n <= 100000",
        },
        indexes=(("stop_id",),),
    )


def _clearance() -> None:
    table(
        "clearance",
        link("stop_id", "stop"),
        text("kind"),
        whole("looked_n"),
        rules={
            "stop_id": "length(stop_id) = 36",
            "kind": "kind IN ('glance', 'every_look', 'whole_bed')",
            "looked_n": "looked_n >= 1 AND looked_n <= 100000",
        },
        indexes=(("stop_id",),),
    )


def _finding() -> None:
    table(
        "finding",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        link("stop_id", "stop", null=True),
        link("planting_id", "planting"),
        link("bed_id", "bed", null=True),
        text("symptom"),
        text("state"),
        whole("looked_n", null=True),
        whole("affected_n", null=True),
        real("severity_outer_pct", null=True),
        real("severity_middle_pct", null=True),
        real("severity_inner_pct", null=True),
        text("place", null=True),
        text("which_plants", null=True),
        text("note"),
        text("manner"),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "stop_id": "length(stop_id) = 36",
            "planting_id": "length(planting_id) = 36",
            "bed_id": "length(bed_id) = 36",
            "symptom": "length(symptom) >= 1 AND length(symptom) <= 60",
            "state": "state IN ('seen', 'not_seen')",
            "looked_n": "looked_n >= 0 AND looked_n <= 100000",
            "affected_n": "affected_n >= 0 AND affected_n <= 100000",
            "severity_outer_pct": "severity_outer_pct >= 0 AND severity_outer_pct <= 100",
            "severity_middle_pct": "severity_middle_pct >= 0 AND severity_middle_pct <= 100",
            "severity_inner_pct": "severity_inner_pct >= 0 AND severity_inner_pct <= 100",
            "place": "length(place) >= 1 AND length(place) <= 60",
            "which_plants": "length(which_plants) >= 1 AND length(which_plants) <= 200",
            "note": "length(note) >= 0 AND length(note) <= 10000",
            "manner": "manner IN ('glance', 'look', 'asked')",
            "affected_n_to_looked_n": "affected_n <= looked_n",
            "not_seen_is_none": "state = 'seen' OR coalesce(affected_n, 0) = 0",
        },
        indexes=(
            ("bed_id", "observed_at"),
            ("planting_id", "observed_at"),
            ("stop_id",),
        ),
    )
