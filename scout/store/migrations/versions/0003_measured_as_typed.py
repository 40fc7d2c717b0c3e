"""A measurement may contradict itself where the grower says it is so: it is questioned when typed, not refused."""

from alembic import op

from scout.store.migrations.first.columns import link, real, table, text, time, whole

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

_DROPPED = ("ck_measurement_highest_diseased_to_top_leaf", "ck_measurement_stripped_to_to_top_leaf")
_COLUMNS = (
    "id, garden_id, device_id, author, entered_at, observed_at, observed_offset_min, marked_plant_id, stop_id, "
    "top_leaf, highest_diseased, stripped_to, newly_diseased, leaves_standing, wet, severity_pct"
)


def upgrade() -> None:
    """Drop both rules across leaves; SQLite cannot, so the table is made anew there."""
    if op.get_bind().dialect.name == "postgresql":
        for rule in _DROPPED:
            op.drop_constraint(rule, "measurement")
        return
    op.drop_index("ix_measurement_marked_plant_id_observed_at", "measurement")
    op.rename_table("measurement", "measurement_before")
    _measurement()
    op.execute(f"INSERT INTO measurement ({_COLUMNS}) SELECT {_COLUMNS} FROM measurement_before")
    op.drop_table("measurement_before")


def downgrade() -> None:
    """Older shapes come back from a backup, never by force."""
    raise NotImplementedError("restore the backup that was made before the upgrade")


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
        },
        indexes=(("marked_plant_id", "observed_at"),),
    )
