"""The garden, its beds and plantings, as of revision 0001."""

from scout.store.migrations.first.columns import flag, link, real, table, text, time, whole


def create() -> None:
    """Make the tables."""
    _garden()
    _device()
    _site()
    _bed()
    _planting()
    _planting_bed()
    _plant_count()
    _circumstance()


def _garden() -> None:
    table(
        "garden",
        text("name"),
        rules={
            "name": "length(name) >= 1 AND length(name) <= 200",
        },
    )


def _device() -> None:
    table(
        "device",
        text("name"),
        rules={
            "name": "length(name) >= 1 AND length(name) <= 200",
        },
    )


def _site() -> None:
    table(
        "site",
        real("latitude", null=True),
        real("longitude", null=True),
        text("zone"),
        text("units"),
        text("first_frost", null=True),
        text("last_frost", null=True),
        rules={
            "latitude": "latitude >= -90 AND latitude <= 90",
            "longitude": "longitude >= -180 AND longitude <= 180",
            "zone": "length(zone) >= 1 AND length(zone) <= 60",
            "units": "units IN ('metric', 'us')",
            "first_frost": "length(first_frost) = 5",
            "last_frost": "length(last_frost) = 5",
        },
    )


def _bed() -> None:
    table(
        "bed",
        text("name"),
        text("kind"),
        whole("position"),
        text("water_zone", null=True),
        text("note"),
        time("retired_on", null=True),
        rules={
            "name": "length(name) >= 1 AND length(name) <= 200",
            "kind": "kind IN ('bed', 'tub')",
            "position": "position >= 0 AND position <= 10000",
            "water_zone": "length(water_zone) >= 1 AND length(water_zone) <= 200",
            "note": "length(note) >= 0 AND length(note) <= 10000",
            "retired_on": "length(retired_on) = 10",
        },
    )


def _planting() -> None:
    table(
        "planting",
        text("crop"),
        text("variety_label", null=True),
        text("variety_found", null=True),
        text("identity"),
        text("origin"),
        text("habit", null=True),
        time("sown_on", null=True),
        time("set_out_on", null=True),
        time("removed_on", null=True),
        text("removed_why", null=True),
        text("stage_override", null=True),
        text("note"),
        rules={
            "crop": "length(crop) >= 1 AND length(crop) <= 60",
            "variety_label": "length(variety_label) >= 1 AND length(variety_label) <= 200",
            "variety_found": "length(variety_found) >= 1 AND length(variety_found) <= 200",
            "identity": "identity IN ('confirmed', 'unconfirmed')",
            "origin": "origin IN ('bought_plant', 'bought_seed', 'saved_seed', 'volunteer', 'unknown')",
            "habit": "length(habit) >= 1 AND length(habit) <= 60",
            "sown_on": "length(sown_on) = 10",
            "set_out_on": "length(set_out_on) = 10",
            "removed_on": "length(removed_on) = 10",
            "removed_why": "length(removed_why) >= 1 AND length(removed_why) <= 200",
            "stage_override": "length(stage_override) >= 1 AND length(stage_override) <= 60",
            "note": "length(note) >= 0 AND length(note) <= 10000",
            "set_out_on_to_removed_on": "set_out_on <= removed_on",
            "sown_on_to_set_out_on": "sown_on <= set_out_on",
            "sown_on_to_removed_on": "sown_on <= removed_on",
        },
    )


def _planting_bed() -> None:
    table(
        "planting_bed",
        link("planting_id", "planting"),
        link("bed_id", "bed"),
        time("from_on"),
        time("until_on", null=True),
        rules={
            "planting_id": "length(planting_id) = 36",
            "bed_id": "length(bed_id) = 36",
            "from_on": "length(from_on) = 10",
            "until_on": "length(until_on) = 10",
            "from_on_to_until_on": "from_on <= until_on",
        },
        indexes=(
            ("bed_id",),
            ("planting_id",),
        ),
    )


def _plant_count() -> None:
    table(
        "plant_count",
        link("planting_id", "planting"),
        time("counted_on"),
        whole("plants_n"),
        rules={
            "planting_id": "length(planting_id) = 36",
            "counted_on": "length(counted_on) = 10",
            "plants_n": "plants_n >= 0 AND plants_n <= 100000",
        },
        indexes=(("planting_id", "counted_on"),),
    )


def _circumstance() -> None:
    table(
        "circumstance",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        link("planting_id", "planting"),
        text("circumstance"),
        flag("value"),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "planting_id": "length(planting_id) = 36",
            "circumstance": "length(circumstance) >= 1 AND length(circumstance) <= 60",
        },
        indexes=(("planting_id", "circumstance"),),
    )
