"""What services ask the store, on both engines."""

import json
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from scout.errors import NotFound
from scout.store import beds, findings, jobs, marked, photos, plantings, records, walk_times, walks
from scout.store.database import reading
from scout.store.history import transaction
from scout.store.plain_file import reading_file
from scout.store.tables_follow import Hold, Job, MarkedPlant, Measurement, Outcome, Ranking, Trouble
from scout.store.tables_garden import Bed, Circumstance, PlantCount, Planting, PlantingBed, Site
from scout.store.tables_log import BroughtIn, EnemySeen, NearReport, Photo, Pick, Watering
from scout.store.tables_walk import Clearance, Finding, LookAnswer, Stop, Walk
from scout.store.undo import undo_last

from .conftest import Farm
from .samples import good


def _ask(farm: Farm, question: Any, **about: Any) -> Any:
    """Return the answer of a session; a file asked by itself must answer the same."""
    with reading(farm.engine) as session:
        answer = question(session=session, **about)
    if isinstance(farm.target, Path):
        with reading_file(farm.target) as connection:
            assert question(session=connection, **about) == answer
    return answer


def _in_garden(farm: Farm, question: Any, **about: Any) -> Any:
    return _ask(farm, question, garden_id=farm.stamp.garden_id, **about)


def _find(farm: Farm, at: str, **more: Any) -> str:
    return farm.write(Finding, **good(farm)["finding"] | {"observed_at": at} | more)


def test_the_garden_its_devices_and_its_newest_site_are_found(farm: Farm) -> None:
    """Of two site rows the later one holds."""
    assert [garden.name for garden in _ask(farm, beds.gardens)] == ["Slope"]
    assert [device.name for device in _in_garden(farm, beds.devices)] == ["phone"]
    assert _in_garden(farm, beds.site) is None
    farm.write(Site, zone="Etc/UTC")
    farm.write(Site, zone="Etc/GMT-1", units="us")
    assert _in_garden(farm, beds.site).units == "us"


def test_beds_come_in_walking_order_without_the_retired(farm: Farm) -> None:
    """A bed retired on a day is gone from that day on; without a day all are given."""
    farm.write(Bed, name="Bed 3", position=3)
    farm.write(Bed, name="Gate", position=0, kind="tub")
    farm.write(Bed, name="Old", position=2, retired_on="2026-07-20")
    names = lambda on: [bed.name for bed in _in_garden(farm, beds.beds_in_order, on=on)]  # noqa: E731
    assert names("2026-07-19") == ["Gate", "Bed 1", "Old", "Bed 3"]
    assert names("2026-07-20") == ["Gate", "Bed 1", "Bed 3"]
    assert names(None) == ["Gate", "Bed 1", "Old", "Bed 3"]
    assert [bed.id for bed in _in_garden(farm, beds.beds_named, name="bed 1")] == [farm.bed]
    assert _ask(farm, beds.bed, bed_id=farm.bed).name == "Bed 1"
    assert _ask(farm, beds.bed, bed_id="nothing") is None


def test_several_plantings_in_a_bed_and_several_beds_of_a_planting(farm: Farm) -> None:
    """Only what stands on the day: placed, not moved away, not removed, bed in use."""
    second = farm.write(Bed, name="Bed 2", position=2)
    basil = farm.write(Planting, crop="basil", set_out_on="2026-06-01")
    pulled = farm.write(Planting, crop="lettuce", removed_on="2026-07-01")
    farm.write(PlantingBed, planting_id=basil, bed_id=farm.bed, from_on="2026-06-01")
    farm.write(PlantingBed, planting_id=farm.planting, bed_id=second, from_on="2026-06-10", until_on="2026-07-30")
    farm.write(PlantingBed, planting_id=pulled, bed_id=second, from_on="2026-04-01")
    stands = lambda on: [(p.bed_id, p.planting_id) for p in _in_garden(farm, plantings.places, on=on)]  # noqa: E731
    assert stands("2026-07-20") == [(farm.bed, farm.planting), (farm.bed, basil), (second, farm.planting)]
    assert stands("2026-07-31") == [(farm.bed, farm.planting), (farm.bed, basil)]
    assert stands("2026-05-20") == [(farm.bed, farm.planting), (second, pulled)]
    ids = lambda on: {p.id for p in _in_garden(farm, plantings.plantings, on=on)}  # noqa: E731
    assert ids("2026-07-20") == {farm.planting, basil}
    assert ids("2026-05-01") == {farm.planting, pulled}
    assert ids(None) == {farm.planting, basil, pulled}


def test_the_newest_plant_count_up_to_the_day_holds(farm: Farm) -> None:
    """Counts are dated, never overwritten."""
    for day, count in (("2026-06-01", 12), ("2026-07-10", 10), ("2026-08-01", 7)):
        farm.write(PlantCount, planting_id=farm.planting, counted_on=day, plants_n=count)
    assert _in_garden(farm, plantings.plant_counts, on="2026-07-20")[farm.planting].plants_n == 10
    assert _in_garden(farm, plantings.plant_counts, on="2026-05-01") == {}


def test_the_newest_answer_to_each_circumstance_holds(farm: Farm) -> None:
    """With the time it was given; an answer without an hour counts as given before those of its day."""
    for at, value in (("2026-06-01", True), ("2026-07-21", False), ("2026-07-21T06:00", True)):
        farm.write(Circumstance, planting_id=farm.planting, circumstance="mulched", value=value, observed_at=at)
    told = _ask(farm, plantings.circumstances_said, planting_id=farm.planting)
    assert told == {"mulched": (True, "2026-07-21T06:00")}


def test_an_open_walk_is_found_with_its_stops_and_their_state(farm: Farm) -> None:
    """After a restart the walk goes on where it stopped; another device's walk is not taken for this one's."""
    second = farm.write(Stop, **good(farm)["stop"])
    farm.change(Stop, second, state="deferred", deferred_why="wet leaves")
    found = _in_garden(farm, walks.open_walk)
    assert found.id == farm.walk and found.ended_at is None
    assert [(s.position, s.state) for s in _ask(farm, walks.stops, walk_id=farm.walk)] == [(1, "open"), (2, "deferred")]
    other = farm.other_device()
    theirs = other.write(Walk, started_at="2026-07-20T23:50", mode="night")
    assert _in_garden(farm, walks.open_walk, device_id=farm.stamp.device_id).id == farm.walk
    assert _in_garden(farm, walks.open_walk).id == theirs
    farm.change(Walk, farm.walk, ended_at="2026-07-20T08:02", ended_offset_min=120)
    assert _in_garden(farm, walks.open_walk, device_id=farm.stamp.device_id) is None
    day = {"since": "2026-07-20", "until": "2026-07-20"}
    found = _in_garden(farm, walks.walks, **day)
    assert [(walk.id, walk.ended_at) for walk in found] == [(farm.walk, "2026-07-20T08:02"), (theirs, None)]


def test_stops_closed_on_the_newest_ended_walks_tell_how_long_they_took(farm: Farm) -> None:
    """A walk that is still open, a stop left for later and a walk of long ago tell nothing."""
    stop = good(farm)["stop"]

    def walk(day: str, ended: bool) -> str:
        end = {"ended_at": f"{day}T08:00", "ended_offset_min": 0} if ended else {}
        return farm.write(Walk, started_at=f"{day}T07:00", started_offset_min=0, mode="full", **end)

    done = {"state": "done", "closed_at": "2026-07-21T07:10"}
    ended, going, old = walk("2026-07-21", True), walk("2026-07-22", False), walk("2025-07-21", True)
    quick = farm.write(Stop, **stop | done | {"walk_id": ended, "position": 1})
    farm.write(Clearance, stop_id=quick, kind="glance", looked_n=6)
    farm.write(Stop, **stop | done | {"walk_id": ended, "position": 2, "closed_at": "2026-07-21T07:20"})
    farm.write(Stop, **stop | {"walk_id": ended, "position": 3, "state": "deferred", "deferred_why": "wet"})
    for walk_id in (going, old):
        farm.write(Stop, **stop | done | {"walk_id": walk_id})
    found = _in_garden(farm, walk_times.closed_stops, since="2026-06-01")
    assert [(one.closed_at, one.cleared) for one in found if one.walk_id == ended] == [
        ("2026-07-21T07:10", True),
        ("2026-07-21T07:20", False),
    ]
    assert {one.walk_id for one in found} <= {ended, farm.walk}


def test_what_was_put_away_is_told_apart_from_jobs_that_were_skipped(farm: Farm) -> None:
    skipped = {"state": "skipped", "skipped_why": "seen to"}
    farm.write(Job, title="Wet nights", due_on="2026-07-23", **skipped)
    farm.write(Job, title="Long ago", due_on="2026-05-01", **skipped)
    farm.write(Job, title="Mulch", due_on="2026-07-23", planting_id=farm.planting, **skipped)
    farm.write(Job, title="Not yet", due_on="2026-07-23")
    found = _in_garden(farm, jobs.never_taken_up, since="2026-06-01")
    assert found == (("Wet nights", "2026-07-23"),)


def test_the_newest_answer_to_each_look_holds(farm: Farm) -> None:
    """A changed mind adds an answer; the stop shows the last."""
    for look, answer in (("lowest", "clear"), ("underside", "skip"), ("lowest", "seen")):
        farm.write(LookAnswer, stop_id=farm.stop, look_id=look, answer=answer, looked_n=6)
    found = _ask(farm, walks.look_answers, stop_id=farm.stop)
    assert {look: answer.answer for look, answer in found.items()} == {"lowest": "seen", "underside": "skip"}
    farm.write(Clearance, stop_id=farm.stop, kind="every_look", looked_n=8)
    assert [c.looked_n for c in _ask(farm, walks.clearances, stop_id=farm.stop)] == [8]


def test_the_last_visit_of_a_planting_is_its_last_finished_stop(farm: Farm) -> None:
    """An open stop is no visit yet."""
    assert _in_garden(farm, walks.last_visits, on="2026-07-20") == {}
    farm.change(Stop, farm.stop, state="done", closed_at="2026-07-20T07:30")
    assert _in_garden(farm, walks.last_visits, on="2026-07-20")[farm.planting].id == farm.stop
    assert _ask(farm, walks.stop, stop_id=farm.stop).state == "done"


def test_the_last_finding_of_each_planting_is_found(farm: Farm) -> None:
    """From the day asked about on."""
    _find(farm, "2026-07-10T07:00", note="rings below")
    newest = _find(farm, "2026-07-18T07:00", note="")
    assert _in_garden(farm, findings.last_findings, since="2026-07-01")[farm.planting].id == newest
    assert _in_garden(farm, findings.last_findings, since="2026-07-19") == {}


def test_findings_since_a_day_include_that_day_whatever_the_hour(farm: Farm) -> None:
    """A finding without an hour belongs to its day."""
    for at in ("2026-07-09T23:59", "2026-07-10", "2026-07-10T06:00", "2026-07-12"):
        _find(farm, at)
    found = _ask(farm, findings.findings_since, planting_id=farm.planting, since="2026-07-10")
    assert [finding.observed_at for finding in found] == ["2026-07-10", "2026-07-10T06:00", "2026-07-12"]
    assert len(_ask(farm, findings.findings_of_stop, stop_id=farm.stop)) == 4
    assert _ask(farm, findings.finding, finding_id=found[0].id).observed_at == "2026-07-10"


def test_the_last_findings_of_a_bed_come_newest_first_as_tuples(farm: Farm) -> None:
    """As many as asked for."""
    for day in range(1, 10):
        _find(farm, f"2026-07-0{day}T07:00", affected_n=day % 5)
    found = _ask(farm, findings.last_of_bed, bed_id=farm.bed, limit=3)
    assert found == tuple((f"2026-07-0{day}T07:00", "leaf.ringed_spots", "seen", 6, day % 5) for day in (9, 8, 7))


def test_the_last_findings_of_a_bed_are_searched_by_an_index(file_farm: Farm) -> None:
    """EXPLAIN QUERY PLAN: a search by bed and time, no scan and no sort."""
    with file_farm.engine.connect() as connection:
        explain = text(f"EXPLAIN QUERY PLAN {findings.LAST_OF_BED}")
        plan = " ".join(row[3] for row in connection.execute(explain, {"bed": file_farm.bed, "most": 200}))
    assert "SEARCH finding USING INDEX ix_finding_bed_id_observed_at (bed_id=?)" in plan
    assert "SCAN" not in plan and "TEMP B-TREE" not in plan


def test_measurements_come_with_the_label_of_their_plant(farm: Farm) -> None:
    """Oldest first."""
    plant = farm.write(MarkedPlant, **good(farm)["marked_plant"])
    for at, top in (("2026-07-20", 19), ("2026-07-13", 16)):
        farm.write(Measurement, marked_plant_id=plant, observed_at=at, top_leaf=top, wet="dry")
    found = _ask(farm, marked.measurements, planting_id=farm.planting)
    assert [(m.label, m.observed_at, m.top_leaf, m.wet) for m in found] == [
        ("tape 1", "2026-07-13", 16, "dry"),
        ("tape 1", "2026-07-20", 19, "dry"),
    ]
    assert [p.label for p in _ask(farm, marked.marked_plants, planting_id=farm.planting)] == ["tape 1"]


def test_open_jobs_come_by_due_day_and_done_ones_ask_for_a_look(farm: Farm) -> None:
    """A done job without an outcome asks again on its day; one with an outcome does not."""
    job = {"planting_id": farm.planting, "title": "Strip"}
    late = farm.write(Job, **job, due_on="2026-07-25")
    soon = farm.write(Job, **job, due_on="2026-07-21")
    done = farm.write(Job, **job, due_on="2026-07-10", state="done", done_at="2026-07-10", look_again_on="2026-07-20")
    assert [j.id for j in _in_garden(farm, jobs.open_jobs)] == [soon, late]
    assert [j.id for j in _in_garden(farm, jobs.open_jobs, due_until="2026-07-21")] == [soon]
    assert [j.id for j in _in_garden(farm, jobs.looks_due, due_until="2026-07-20")] == [done]
    assert _in_garden(farm, jobs.looks_due, due_until="2026-07-19") == ()
    farm.write(Outcome, job_id=done, verdict="yes", sign="independent", observed_at="2026-07-20")
    assert _in_garden(farm, jobs.looks_due, due_until="2026-07-20") == ()
    assert [o.verdict for o in _in_garden(farm, jobs.outcomes)] == ["yes"]
    assert len(_ask(farm, jobs.jobs_of, planting_id=farm.planting)) == 3
    assert _ask(farm, jobs.job, job_id=late).due_on == "2026-07-25"


def test_open_problems_and_standing_holds_are_found(farm: Farm) -> None:
    """A closed problem and a hold that has run out are not; a hold without an end stands."""
    trouble = farm.write(Trouble, planting_id=farm.planting, title="Spots", opened_on="2026-07-01")
    assert [t.id for t in _in_garden(farm, jobs.open_troubles)] == [trouble]
    assert len(_in_garden(farm, jobs.open_troubles, planting_id=farm.planting)) == 1
    farm.change(Trouble, trouble, state="closed", closed_on="2026-07-19")
    assert _in_garden(farm, jobs.open_troubles) == ()
    assert len(_in_garden(farm, jobs.troubles)) == 1
    hold = {"planting_id": farm.planting}
    farm.write(Hold, **hold, reason="spray", until_at="2026-07-27T10:00", re_entry_until_at="2026-07-20T18:00")
    farm.write(Hold, **hold, reason="days not known", re_entry_until_at="2026-07-21T18:00")
    farm.write(Hold, **hold, reason="a day alone", until_at="2026-07-22")
    farm.write(Hold, **hold, reason="bitter")
    stands = lambda at: {h.reason for h in _in_garden(farm, jobs.holds, at=at)}  # noqa: E731
    assert stands("2026-07-20T12:00") == {"spray", "days not known", "bitter", "a day alone"}
    assert stands("2026-07-22T12:00") == {"spray", "days not known", "bitter", "a day alone"}
    assert stands("2026-07-23T00:00") == {"spray", "days not known", "bitter"}
    assert stands("2026-07-28") == {"days not known", "bitter"}  # unknown days are never taken for none


def test_what_is_logged_is_found_between_days(farm: Farm) -> None:
    """Picks, water, arrivals, reports near here, natural enemies."""
    plant = {"planting_id": farm.planting}
    for at in ("2026-07-19T08:00", "2026-07-20T08:00", "2026-07-21"):
        farm.write(Pick, **plant, sound_n=5, odd_n=1, observed_at=at)
        farm.write(Watering, water_zone="B", outcome="missed", observed_at=at)
        farm.write(EnemySeen, **plant, enemy="lady_beetle", observed_at=at)
        farm.write(BroughtIn, what="straw", on=at[:10])
        farm.write(NearReport, disease="late_blight", reported_on=at[:10])
    day = {"since": "2026-07-20", "until": "2026-07-20"}
    assert [p.sound_n for p in _in_garden(farm, records.picks, **day)] == [5]
    assert [w.outcome for w in _in_garden(farm, records.waterings, **day)] == ["missed"]
    assert [a.on for a in _in_garden(farm, records.arrivals, since="2026-07-20")] == ["2026-07-20", "2026-07-21"]
    assert len(_in_garden(farm, records.near_reports, since="2026-07-21")) == 1
    assert len(_ask(farm, records.enemies_seen, **plant, since="2026-07-20")) == 2


def test_rankings_and_changes_can_be_read_back(farm: Farm) -> None:
    """What was shown, what was chosen, and who changed what."""
    shown = farm.write(Ranking, **good(farm)["ranking"])
    farm.change(Ranking, shown, chosen="early_blight")
    assert [row["chosen"] for row in farm.rows("ranking")] == ["early_blight"]
    added, chosen = sorted((row for row in farm.rows("change") if row["row_id"] == shown), key=lambda row: row["seq"])
    assert added["before"] is None and json.loads(added["after"])["knowledge_hash"] == "0f" * 8
    assert json.loads(chosen["before"]) == {"chosen": None}
    assert json.loads(chosen["after"]) == {"chosen": "early_blight"}


def test_a_ranking_shown_without_history_does_not_block_undoing_its_stop(farm: Farm) -> None:
    """It stays, without the stop."""
    stop = farm.write(Stop, **good(farm)["stop"])
    with transaction(farm.engine, farm.stamp) as tx:
        tx.add_silently(Ranking, **good(farm)["ranking"] | {"stop_id": stop})
    undo_last(farm.engine, farm.stamp)
    assert _ask(farm, walks.stop, stop_id=stop) is None
    assert [row["stop_id"] for row in farm.rows("ranking")] == [None]


def test_where_a_stop_stands_on_screen_does_not_block_its_undo(farm: Farm) -> None:
    """The place in the questions is kept without history."""
    stop = farm.write(Stop, **good(farm)["stop"])
    with transaction(farm.engine, farm.stamp) as tx:
        tx.change("stop", stop, {"asking": "look:lowest"})
    undo_last(farm.engine, farm.stamp)
    assert _ask(farm, walks.stop, stop_id=stop) is None


def test_photos_are_found_by_owner(farm: Farm) -> None:
    """And by their id."""
    photo = farm.write(Photo, **good(farm)["photo"])
    assert [p.id for p in _ask(farm, photos.photos_of, owner_kind="planting", owner_id=farm.planting)] == [photo]
    assert _ask(farm, photos.photo, photo_id=photo).drawing is False
    assert len(_in_garden(farm, photos.photos)) == 1


def test_an_erased_photo_leaves_a_tombstone_and_nothing_of_what_it_showed(farm: Farm) -> None:
    """Row and history are emptied; the file's name is given back so that it can be deleted."""
    photo = farm.write(Photo, **good(farm)["photo"] | {"note": "my neighbour"})
    farm.change(Photo, photo, note="the neighbour again")
    with transaction(farm.engine, farm.stamp) as tx:
        assert photos.erase_photo(tx, photo, why="a person is in it") == "2026/0198b2f0.jpg"
    assert farm.rows("photo") == []
    stone = _in_garden(farm, photos.tombstones)[0]
    assert (stone.entity, stone.row_id, stone.why) == ("photo", photo, "a person is in it")
    assert not [row for row in farm.rows("change") if "neighbour" in f"{row['before']}{row['after']}"]
    with pytest.raises(NotFound), transaction(farm.engine, farm.stamp) as tx:
        photos.erase_photo(tx, photo, why="twice")


def test_an_erasure_is_not_undone_and_does_not_block_older_steps(farm: Farm) -> None:
    """Undo passes over what is gone for good."""
    farm.change(Bed, farm.bed, name="Long bed")
    photo = farm.write(Photo, **good(farm)["photo"])
    with transaction(farm.engine, farm.stamp) as tx:
        photos.erase_photo(tx, photo, why="a person is in it")
    undo_last(farm.engine, farm.stamp)
    assert farm.rows("photo") == [] and farm.rows("bed")[0]["name"] == "Bed 1"


def test_what_a_question_gives_outlives_its_session_and_cannot_be_changed(farm: Farm) -> None:
    """Frozen and detached: nothing on a screen can reach back into the file."""
    bed = _in_garden(farm, beds.beds_in_order)[0]
    assert bed.name == "Bed 1"
    with pytest.raises(AttributeError):
        bed.name = "x"
