"""Picks, water, arrivals, reports, enemies and photos, as of revision 0001."""

from scout.store.migrations.first.columns import flag, link, real, table, text, time, whole


def create() -> None:
    """Make the tables."""
    _pick()
    _watering()
    _brought_in()
    _near_report()
    _enemy_seen()
    _photo()


def _pick() -> None:
    table(
        "pick",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        link("planting_id", "planting"),
        whole("sound_n"),
        whole("odd_n"),
        real("weight_g", null=True),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "planting_id": "length(planting_id) = 36",
            "sound_n": "sound_n >= 0 AND sound_n <= 100000",
            "odd_n": "odd_n >= 0 AND odd_n <= 100000",
            "weight_g": "weight_g >= 0 AND weight_g <= 1000000",
        },
        indexes=(("planting_id", "observed_at"),),
    )


def _watering() -> None:
    table(
        "watering",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        text("water_zone", null=True),
        link("bed_id", "bed", null=True),
        text("outcome"),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "water_zone": "length(water_zone) >= 1 AND length(water_zone) <= 200",
            "bed_id": "length(bed_id) = 36",
            "outcome": "outcome IN ('watered', 'missed', 'timer_failed')",
        },
        indexes=(("observed_at",),),
    )


def _brought_in() -> None:
    table(
        "brought_in",
        text("what"),
        link("bed_id", "bed", null=True),
        time("on"),
        rules={
            "what": "length(what) >= 1 AND length(what) <= 200",
            "bed_id": "length(bed_id) = 36",
            "on": 'length("on") = 10',
        },
        indexes=(("on",),),
    )


def _near_report() -> None:
    table(
        "near_report",
        text("disease"),
        real("distance_km", null=True),
        time("reported_on"),
        rules={
            "disease": "length(disease) >= 1 AND length(disease) <= 60",
            "distance_km": "distance_km >= 0 AND distance_km <= 5000",
            "reported_on": "length(reported_on) = 10",
        },
        indexes=(("reported_on",),),
    )


def _enemy_seen() -> None:
    table(
        "enemy_seen",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        link("planting_id", "planting"),
        text("enemy"),
        whole("count_n", null=True),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "planting_id": "length(planting_id) = 36",
            "enemy": "length(enemy) >= 1 AND length(enemy) <= 60",
            "count_n": "count_n >= 0 AND count_n <= 100000",
        },
        indexes=(("planting_id", "observed_at"),),
    )


def _photo() -> None:
    table(
        "photo",
        text("owner_kind"),
        text("owner_id"),
        text("file"),
        text("sha256"),
        time("taken_at", null=True),
        whole("taken_offset_min", null=True),
        whole("width"),
        whole("height"),
        flag("drawing"),
        text("note"),
        rules={
            "owner_kind": "owner_kind IN ('finding', 'stop', 'planting', 'bed', 'marked_plant', 'measurement', "
            "'trouble', 'job', 'outcome')",
            "owner_id": "length(owner_id) = 36",
            "file": "length(file) >= 1 AND length(file) <= 120",
            "sha256": "length(sha256) = 64",
            "taken_at": "length(taken_at) >= 10 AND length(taken_at) <= 16",
            "taken_offset_min": "taken_offset_min >= -840 AND taken_offset_min <= 840",
            "width": "width >= 1 AND width <= 100000",
            "height": "height >= 1 AND height <= 100000",
            "note": "length(note) >= 0 AND length(note) <= 10000",
        },
        indexes=(
            ("owner_kind", "owner_id"),
            ("sha256",),
        ),
    )
