"""The first shape of the tables."""

from scout.store.migrations.first import follow, garden, log, walk, weather

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make every table; those that others point at come first."""
    garden.create()
    walk.create()
    log.create()
    follow.create()
    weather.create()


def downgrade() -> None:
    """Older shapes come back from a backup, never by force."""
    raise NotImplementedError("restore the backup that was made before the upgrade")
