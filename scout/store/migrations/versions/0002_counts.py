"""Counts of one thing on a planting, and what a hold was copied from."""

from alembic import op

from scout.store.migrations.first.columns import flag, link, table, text, time, whole

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of counts, and give holds their label's intervals."""
    _counted()
    for column in _hold_columns():
        op.execute(f"ALTER TABLE hold ADD COLUMN {column}")


def downgrade() -> None:
    """Older shapes come back from a backup, never by force."""
    raise NotImplementedError("restore the backup that was made before the upgrade")


def _counted() -> None:
    table(
        "counted",
        time("observed_at"),
        whole("observed_offset_min", null=True),
        link("planting_id", "planting"),
        link("job_id", "job", null=True),
        text("what"),
        text("mark", null=True),
        text("way"),
        text("unit"),
        text("phase"),
        flag("untreated"),
        whole("counted_n"),
        whole("looked_n"),
        text("each", null=True),
        rules={
            "observed_at": "length(observed_at) >= 10 AND length(observed_at) <= 16",
            "observed_offset_min": "observed_offset_min >= -840 AND observed_offset_min <= 840",
            "planting_id": "length(planting_id) = 36",
            "job_id": "length(job_id) = 36",
            "what": "length(what) >= 1 AND length(what) <= 200",
            "mark": "length(mark) >= 1 AND length(mark) <= 60",
            "way": "way IN ('share', 'number')",
            "unit": "length(unit) >= 1 AND length(unit) <= 200",
            "phase": "phase IN ('before', 'after', 'alone')",
            "counted_n": "counted_n >= 0 AND counted_n <= 100000",
            "looked_n": "looked_n >= 1 AND looked_n <= 100000",
            "each": "length(each) >= 1 AND length(each) <= 1000000",
            "share_is_of_those_looked_at": "way <> 'share' OR counted_n <= looked_n",
            "of_a_job_or_alone": "(phase = 'alone') = (job_id IS NULL)",
        },
        indexes=(("job_id",), ("planting_id", "observed_at")),
    )


def _hold_columns() -> tuple[str, ...]:
    """Return the new columns; a column added alone may carry its rule on both engines, a table's rule may not."""
    sorts = ' COLLATE "C"' if op.get_bind().dialect.name == "postgresql" else ""
    return (
        f"applied_at VARCHAR{sorts} CONSTRAINT ck_hold_applied_at"
        " CHECK (length(applied_at) >= 10 AND length(applied_at) <= 16)",
        "applied_offset_min INTEGER CONSTRAINT ck_hold_applied_offset_min"
        " CHECK (applied_offset_min >= -840 AND applied_offset_min <= 840)",
        "harvest_interval_d INTEGER CONSTRAINT ck_hold_harvest_interval_d"
        " CHECK (harvest_interval_d >= 0 AND harvest_interval_d <= 400)",
        "re_entry_h INTEGER CONSTRAINT ck_hold_re_entry_h CHECK (re_entry_h >= 0 AND re_entry_h <= 2000)",
    )
