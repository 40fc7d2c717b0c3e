"""Writes are kept whole, with what they changed; the last one can be taken back."""

import json
import os
import signal
import subprocess
import sys
import textwrap

import pytest
from sqlalchemy import text

from scout.errors import BadInput, NotFound, Refused
from scout.store.database import open_engine
from scout.store.history import transaction
from scout.store.tables_garden import Bed, BedRow, Planting
from scout.store.tables_walk import Finding
from scout.store.undo import undo_last

from .conftest import Farm


def _finding(farm: Farm, **more: object) -> dict[str, object]:
    values: dict[str, object] = {
        "planting_id": farm.planting,
        "bed_id": farm.bed,
        "symptom": "leaf.ringed_spots",
        "state": "seen",
        "looked_n": 6,
        "affected_n": 4,
        "manner": "look",
        "observed_at": "2026-07-20T07:20",
        "observed_offset_min": 120,
    }
    return values | more


def test_an_added_row_comes_with_its_change_row_in_the_same_group(farm: Farm) -> None:
    """Before is empty, after is the whole row, stamp included."""
    with transaction(farm.engine, farm.stamp) as tx:
        first = tx.add(Bed, name="Bed 2", position=2)
        second = tx.add(Bed, name="Bed 3", position=3)
        group = tx.group_id
    changes = [row for row in farm.rows("change") if row["group_id"] == group]
    assert [(row["entity"], row["row_id"], row["before"]) for row in changes] == [
        ("bed", first, None),
        ("bed", second, None),
    ]
    after = json.loads(changes[0]["after"])
    assert after == next(row for row in farm.rows("bed") if row["id"] == first)
    assert after["author"] == "Ada" and after["entered_at"] == farm.stamp.now_utc


def test_an_update_keeps_only_the_fields_that_differ(farm: Farm) -> None:
    """An update by plain class or by row class writes the old and the new value."""
    assert farm.change(BedRow, farm.bed, name="Long bed", position=1)
    change = farm.rows("change")[-1]
    assert json.loads(change["before"]) == {"name": "Bed 1"}
    assert json.loads(change["after"]) == {"name": "Long bed"}


def test_an_update_that_changes_nothing_writes_nothing(farm: Farm) -> None:
    """No empty steps stand between the grower and the last real one."""
    count = len(farm.rows("change"))
    assert farm.change(Bed, farm.bed, name="Bed 1") is False
    assert len(farm.rows("change")) == count


def test_a_failed_block_leaves_nothing_behind(farm: Farm) -> None:
    """A refused row takes the good one before it along."""
    beds, changes = farm.rows("bed"), farm.rows("change")
    with pytest.raises(BadInput), transaction(farm.engine, farm.stamp) as tx:
        tx.add(Bed, name="Bed 2", position=2)
        tx.add(Bed, name="Bed 3", position=-1)
    assert (farm.rows("bed"), farm.rows("change")) == (beds, changes)


def test_a_row_that_belongs_to_nothing_is_refused(farm: Farm) -> None:
    """Foreign keys are held on both engines."""
    with pytest.raises(BadInput, match="not in the garden"):
        farm.write(Finding, **_finding(farm, planting_id="0198b2f0-0000-7000-8000-00000000dead"))


def test_an_update_is_checked_with_the_fields_that_stay(farm: Farm) -> None:
    """More affected than looked at is refused also when only one of the two changes."""
    finding = farm.write(Finding, **_finding(farm))
    with pytest.raises(BadInput, match="more plants affected than looked at"):
        farm.change(Finding, finding, looked_n=3)


def test_a_row_that_is_not_there_cannot_be_changed(farm: Farm) -> None:
    """The sentence names the noun."""
    with pytest.raises(NotFound, match="no planting with the id"):
        farm.change(Planting, "0198b2f0-0000-7000-8000-00000000dead", note="x")


def test_undoing_an_addition_removes_the_row_and_keeps_its_history(farm: Farm) -> None:
    """The inverse is a change of its own that holds what was removed."""
    finding = farm.write(Finding, **_finding(farm))
    kept = farm.rows("finding")[0]
    undone = undo_last(farm.engine, farm.stamp)
    assert undone.rows == (("finding", finding),)
    assert farm.rows("finding") == []
    inverse = farm.rows("change")[-1]
    assert inverse["undoes"] == undone.group_id and inverse["after"] is None
    assert json.loads(inverse["before"]) == kept


def test_undoing_an_update_brings_the_old_values_back(farm: Farm) -> None:
    """Only the changed field moves."""
    farm.change(Bed, farm.bed, name="Long bed", note="wet")
    undo_last(farm.engine, farm.stamp)
    bed = farm.rows("bed")[0]
    assert (bed["name"], bed["note"]) == ("Bed 1", "")


def test_a_group_is_undone_whole_and_children_go_before_parents(farm: Farm) -> None:
    """Planting, finding and a later change of both in one transaction leave together."""
    with transaction(farm.engine, farm.stamp) as tx:
        planting = tx.add(Planting, crop="cucumber")
        finding = tx.add(Finding, **_finding(farm, planting_id=planting))
        tx.update(Finding, finding, note="near the path")
        tx.update(Bed, farm.bed, note="half cleared")
    assert len(undo_last(farm.engine, farm.stamp).rows) == 4
    assert [row["id"] for row in farm.rows("planting")] == [farm.planting]
    assert farm.rows("finding") == []
    assert farm.rows("bed")[0]["note"] == ""


def test_undo_steps_back_through_several_changes_of_one_row(farm: Farm) -> None:
    """A change that was itself taken back does not stand in the way of the one before it."""
    for name in ("Bed A", "Bed B", "Bed C"):
        farm.change(Bed, farm.bed, name=name)
    seen = []
    for _ in range(3):
        undo_last(farm.engine, farm.stamp)
        seen.append(farm.rows("bed")[0]["name"])
    assert seen == ["Bed B", "Bed A", "Bed 1"]


def test_undo_survives_a_restart(farm: Farm) -> None:
    """Another engine on the same garden takes back what this one wrote."""
    farm.change(Bed, farm.bed, name="Long bed")
    farm.engine.dispose()
    again = open_engine(farm.target)
    undo_last(again, farm.stamp)
    again.dispose()
    assert farm.rows("bed")[0]["name"] == "Bed 1"


def test_undo_is_refused_when_another_device_changed_the_row_since(farm: Farm) -> None:
    """Nothing is lost: the row stays as the other device left it."""
    farm.change(Bed, farm.bed, name="Long bed")
    farm.other_device().change(Bed, farm.bed, note="moved")
    with pytest.raises(Refused, match="changed again later"):
        undo_last(farm.engine, farm.stamp)
    assert farm.rows("bed")[0]["name"] == "Long bed"


def test_undo_is_refused_when_the_row_no_longer_stands_as_the_change_left_it(farm: Farm) -> None:
    """Also where the later change left no trace in the history."""
    farm.change(Bed, farm.bed, name="Long bed")
    with farm.engine.begin() as connection:
        connection.execute(text("UPDATE bed SET name = 'by hand'"))
    with pytest.raises(Refused, match="changed again later"):
        undo_last(farm.engine, farm.stamp)


def test_undo_is_refused_when_another_device_hung_something_on_the_row(farm: Farm) -> None:
    """A planting with another device's finding on it is not taken away."""
    planting = farm.write(Planting, crop="cucumber")
    farm.other_device().write(Finding, **_finding(farm, planting_id=planting))
    with pytest.raises(Refused, match="something else already belongs to the planting"):
        undo_last(farm.engine, farm.stamp)
    assert len(farm.rows("planting")) == 2


def test_undo_takes_only_what_this_device_did(farm: Farm) -> None:
    """The other device's newer step is left alone."""
    farm.change(Bed, farm.bed, name="Long bed")
    farm.other_device().write(Bed, name="Bed 9", position=9)
    undo_last(farm.engine, farm.stamp)
    assert {row["name"] for row in farm.rows("bed")} == {"Bed 1", "Bed 9"}


def test_the_garden_itself_is_never_undone(farm: Farm) -> None:
    """One key too many says so instead of emptying the garden."""
    with pytest.raises(Refused, match="nothing to undo"):
        undo_last(farm.engine, farm.stamp)


def test_an_undone_step_can_be_followed_by_new_work(farm: Farm) -> None:
    """Undo, then a new step, then undo again takes the new step."""
    farm.change(Bed, farm.bed, name="Bed A")
    undo_last(farm.engine, farm.stamp)
    farm.change(Bed, farm.bed, name="Bed B")
    undo_last(farm.engine, farm.stamp)
    assert farm.rows("bed")[0]["name"] == "Bed 1"


_WRITER = """
import sys, itertools, hashlib
from pathlib import Path
from scout.store.database import open_engine
from scout.store.history import Stamp, transaction
from scout.store.ids import new_id
from scout.store.tables_garden import Bed
numbers = itertools.count(int(sys.argv[2]))
def ids():
    n = next(numbers)
    return new_id(1_790_000_000_000 + n, hashlib.sha256(b"%d" % n).digest()[:10])
stamp = Stamp(sys.argv[3], sys.argv[4], "Ada", "2026-07-20T16:22:05Z", ids)
engine = open_engine(Path(sys.argv[1]))
for n in range(10_000):
    with transaction(engine, stamp) as tx:
        for part in range(20):
            bed = tx.add(Bed, name=f"walk {n} part {part}", position=part)
        group = tx.group_id
    print(group, flush=True)
"""


@pytest.mark.parametrize("after", [1, 7, 20])
def test_a_killed_program_keeps_every_walk_it_said_was_kept_and_no_half_walk(file_farm: Farm, after: int) -> None:
    """kill -9 in the middle of 20-row transactions: nothing acknowledged is lost, nothing half is there."""
    assert os.name == "posix"
    child = subprocess.Popen(
        [
            sys.executable,
            "-c",
            textwrap.dedent(_WRITER),
            str(file_farm.target),
            str(after * 1_000_000),
            file_farm.stamp.garden_id,
            file_farm.stamp.device_id,
        ],
        stdout=subprocess.PIPE,
        text=True,
    )
    assert child.stdout
    said = [child.stdout.readline().strip() for _ in range(after)]
    child.send_signal(signal.SIGKILL)
    said += [line.strip() for line in child.stdout if len(line) == 37]
    child.stdout.close()
    child.wait()
    groups = [row["group_id"] for row in file_farm.rows("change") if row["author"] == "Ada"]
    beds = [row for row in file_farm.rows("bed") if row["name"].startswith("walk")]
    assert len(beds) % 20 == 0 and len(beds) >= 20 * len(said)
    assert all(groups.count(group) == 20 for group in said)
    assert file_farm.rows("pragma_quick_check")[0]["quick_check"] == "ok"
