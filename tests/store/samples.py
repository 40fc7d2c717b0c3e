"""One good row of every table, and rows that must be refused."""

from typing import Any

from scout.store.history import Transaction
from scout.store.tables import NOUNS
from scout.store.weather_columns import HourIn
from scout.store.weather_import import Series, import_hours

OBSERVED = {"observed_at": "2026-07-20T07:20", "observed_offset_min": 120}


def good(farm: Any) -> dict[str, dict[str, Any]]:
    """Return the fields of one good row a table; `farm` lends the ids of what rows belong to."""
    planting, bed, stop = farm.planting, farm.bed, farm.stop
    return {
        "garden": {"name": "Slope"},
        "device": {"name": "phone"},
        "site": {
            "latitude": 47.5,
            "longitude": 9.25,
            "zone": "Etc/UTC",
            "units": "us",
            "first_frost": "10-12",
            "last_frost": "05-15",
        },
        "bed": {"name": "Tub 3", "kind": "tub", "position": 3, "water_zone": "B", "note": "half\nshade"},
        "planting": {
            "crop": "tomato",
            "variety_label": "Early Red",
            "identity": "confirmed",
            "origin": "saved_seed",
            "habit": "indeterminate",
            "sown_on": "2026-03-01",
            "set_out_on": "2026-05-15",
        },
        "planting_bed": {"planting_id": planting, "bed_id": bed, "from_on": "2026-05-15", "until_on": "2026-10-01"},
        "plant_count": {"planting_id": planting, "counted_on": "2026-06-01", "plants_n": 12},
        "circumstance": {"planting_id": planting, "circumstance": "mulched", "value": True} | OBSERVED,
        "walk": {"started_at": "2026-07-20T23:40", "started_offset_min": 120, "mode": "night"},
        "stop": {"walk_id": farm.walk, "planting_id": planting, "bed_id": bed, "position": 2, "why": "tape"},
        "look_answer": {"stop_id": stop, "look_id": "tomato_lowest", "answer": "seen", "looked_n": 6},
        "clearance": {"stop_id": stop, "kind": "glance", "looked_n": 12},
        "finding": {
            "stop_id": stop,
            "planting_id": planting,
            "bed_id": bed,
            "symptom": "leaf.ringed_spots",
            "state": "seen",
            "looked_n": 6,
            "affected_n": 4,
            "severity_inner_pct": 12.5,
            "which_plants": "3rd and 5th from the path",
            "note": "rings 🍅",
            "manner": "look",
        }
        | OBSERVED,
        "pick": {"planting_id": planting, "sound_n": 14, "odd_n": 2, "weight_g": 1250.5} | OBSERVED,
        "watering": {"water_zone": "B", "outcome": "timer_failed"} | OBSERVED,
        "brought_in": {"what": "straw", "bed_id": bed, "on": "2026-06-03"},
        "near_report": {"disease": "late_blight", "distance_km": 12.0, "reported_on": "2026-07-18"},
        "enemy_seen": {"planting_id": planting, "enemy": "lady_beetle", "count_n": 3} | OBSERVED,
        "photo": {
            "owner_kind": "planting",
            "owner_id": planting,
            "file": "2026/0198b2f0.jpg",
            "sha256": "ab" * 32,
            "width": 1600,
            "height": 1200,
            "taken_at": "2026-07-20T07:21",
            "taken_offset_min": 120,
        },
        "marked_plant": {"planting_id": planting, "label": "tape 1", "habit": "indeterminate"},
        "trouble": {"planting_id": planting, "title": "Spots from below", "opened_on": "2026-07-01"},
        "job": {"planting_id": planting, "title": "Strip to leaf 6", "due_on": "2026-07-22", "control": "strip_leaves"},
        "counted": {
            "planting_id": planting,
            "what": "egg groups",
            "mark": "squash_bug_eggs",
            "way": "number",
            "unit": "plants",
            "phase": "alone",
            "counted_n": 4,
            "looked_n": 3,
            "each": "[3, 0, 1]",
        }
        | OBSERVED,
        "hold": {
            "planting_id": planting,
            "reason": "labelled product",
            "until_at": "2026-07-27T10:00",
            "re_entry_until_at": "2026-07-20T22:00",
            "applied_at": "2026-07-20T10:00",
            "applied_offset_min": 120,
            "harvest_interval_d": 7,
            "re_entry_h": 12,
        },
        "ranking": {
            "planting_id": planting,
            "stop_id": stop,
            "knowledge_hash": "0f" * 8,
            "evidence": '{"seen": ["leaf.ringed_spots"]}',
            "answer": '{"early_blight": 0.7}',
            "asked": "leaf.pin_dots",
        }
        | OBSERVED,
        "weather_day": {
            "station": "home",
            "on": "2026-07-19",
            "kind": "observed",
            "basis": "typed",
            "tmax_c": 33.5,
            "tmin_c": 21.0,
            "rain_mm": 0.0,
            "wet_morning": True,
        },
        "weather_series": {"station": "home", "kind": "observed", "basis": "station"},
        "tombstone": {"entity": "photo", "row_id": planting, "why": "a person is in it"},
    }


def add_one_of_each(tx: Transaction, farm: Any) -> dict[str, str]:
    """Add a good row to every table of a furnished garden and return the ids, by table."""
    ids = {}
    for entity, values in good(farm).items():
        if entity == "tombstone":
            ids[entity] = tx.add_silently(NOUNS[entity], **values)["id"]
        elif entity not in ("garden", "device"):
            ids[entity] = tx.add(NOUNS[entity], **values)
    plant = {"marked_plant_id": ids["marked_plant"], "top_leaf": 18, "highest_diseased": 6, "wet": "dry"}
    ids["measurement"] = tx.add(NOUNS["measurement"], **plant, **OBSERVED)
    verdict = {"job_id": ids["job"], "trouble_id": ids["trouble"], "verdict": "yes", "sign": "independent"}
    ids["outcome"] = tx.add(NOUNS["outcome"], **verdict, **OBSERVED)
    hours = [HourIn(f"2026-07-19T{hour:02d}:00", 120, 20.0 + hour / 2, 80.0, 0.0, 1.5, hour < 8) for hour in range(24)]
    import_hours(tx, hours, series=Series("roof"))
    return ids


BAD: list[tuple[str, dict[str, Any], str]] = [
    ("garden", {"name": ""}, "must not be empty"),
    ("garden", {"name": "x" * 201}, "at most 200 characters, not 201"),
    ("garden", {"name": "\x1b[31m\u202e"}, "must not be empty"),
    ("device", {"name": 3}, "must be text"),
    ("site", {"latitude": 91.0}, "must lie between -90 and 90"),
    ("site", {"zone": "Nowhere/Here"}, "must look like Etc/UTC"),
    ("site", {"units": "both"}, "must be one of metric, us"),
    ("site", {"last_frost": "02-30"}, "must look like 05-15"),
    ("bed", {"kind": "field"}, "must be one of bed, tub"),
    ("bed", {"position": -1}, "must lie between 0 and 10,000"),
    ("bed", {"position": "3"}, "must be a whole number"),
    ("bed", {"position": True}, "must be a whole number"),
    ("bed", {"note": "x" * 10_001}, "at most 10,000 characters, not 10,001"),
    ("bed", {"colour": "red"}, "is not a field"),
    ("planting", {"crop": "Tomato!"}, "must look like"),
    ("planting", {"set_out_on": "2026-02-28"}, "set out before it was sown"),
    ("planting", {"removed_on": "2026-05-01"}, "removed before it was set out"),
    ("planting", {"origin": "gift"}, "must be one of bought_plant"),
    ("planting_bed", {"until_on": "2026-05-14"}, "ends before it begins"),
    ("planting_bed", {"from_on": "20260515"}, "must look like 2026-07-20"),
    ("plant_count", {"plants_n": -1}, "must lie between 0 and 100,000"),
    ("circumstance", {"value": "yes"}, "must be yes or no"),
    ("circumstance", {"observed_at": "2026-07-20T24:00"}, "must look like 2026-07-20T18:22"),
    ("walk", {"started_offset_min": 900}, "must lie between -840 and 840"),
    ("walk", {"started_at": "2026-07-20 07:10"}, "must look like 2026-07-20T18:22"),
    ("stop", {"state": "left"}, "must be one of open, done, skipped, deferred"),
    ("look_answer", {"answer": "maybe"}, "must be one of clear, seen, skip"),
    ("clearance", {"looked_n": 0}, "must lie between 1 and 100,000"),
    ("finding", {"affected_n": 7}, "more plants affected than looked at"),
    ("finding", {"state": "not_seen"}, "no plant can be affected"),
    ("finding", {"severity_outer_pct": 100.5}, "must lie between 0 and 100"),
    ("finding", {"severity_outer_pct": float("nan")}, "must be a number"),
    ("finding", {"severity_outer_pct": float("inf")}, "must be a number"),
    ("finding", {"observed_at": "2026-02-30"}, "must look like 2026-07-20T18:22"),
    ("pick", {"sound_n": 2.5}, "must be a whole number"),
    ("pick", {"weight_g": -1.0}, "must lie between 0 and 1,000,000"),
    ("watering", {"outcome": "rained"}, "must be one of watered, missed, timer_failed"),
    ("brought_in", {"on": "2026-13-01"}, "must look like 2026-07-20"),
    ("near_report", {"distance_km": -3.0}, "must lie between 0 and 5,000"),
    ("enemy_seen", {"count_n": -2}, "must lie between 0 and 100,000"),
    ("photo", {"file": "../../etc/x"}, "must look like 2026/0198b2f0.jpg"),
    ("photo", {"sha256": "zz" * 32}, "64 hexadecimal digits"),
    ("photo", {"owner_kind": "person"}, "must be one of finding"),
    ("photo", {"width": 0}, "must lie between 1 and 100,000"),
    ("marked_plant", {"habit": "tall"}, "must be one of indeterminate, determinate, topped"),
    ("trouble", {"closed_on": "2026-07-09"}, "needs a closing day when it is closed"),
    ("trouble", {"state": "closed", "closed_on": "2026-06-30"}, "closed before it was opened"),
    ("job", {"state": "done"}, "needs the day it was done"),
    ("job", {"due_on": None}, "must be text"),
    ("counted", {"way": "guess"}, "must be one of share, number"),
    ("counted", {"looked_n": 0}, "must lie between 1 and 100,000"),
    ("counted", {"way": "share"}, "more counted than were looked at"),
    ("counted", {"phase": "before"}, "belongs to a job before or after it"),
    ("hold", {"until_at": "soon"}, "must look like 2026-07-20T18:22"),
    ("hold", {"harvest_interval_d": -1}, "must lie between 0 and 400"),
    ("hold", {"re_entry_h": 2_001}, "must lie between 0 and 2,000"),
    ("ranking", {"answer": "{not json"}, "must look like"),
    ("weather_day", {"tmin_c": 40.0}, "minimum above its maximum"),
    ("weather_day", {"tmax_c": 92.0}, "must lie between -60.0 and 60.0"),
    ("weather_day", {"kind": "forecast"}, "needs the time of issue"),
    ("weather_series", {"issued_at": "2026-07-19T06:00"}, "needs the time of issue"),
    ("tombstone", {"row_id": "7"}, "must look like 0198b2f0"),
]
"""Table, the fields that are wrong, and part of the sentence."""
