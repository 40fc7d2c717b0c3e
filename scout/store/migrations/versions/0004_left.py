"""A marked plant that is measured no more: it died, was pulled, or lost its tape."""

from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Give marked plants the day from which they are measured no more."""
    sorts = ' COLLATE "C"' if op.get_bind().dialect.name == "postgresql" else ""
    rule = "CONSTRAINT ck_marked_plant_left_on CHECK (length(left_on) = 10)"
    op.execute(f"ALTER TABLE marked_plant ADD COLUMN left_on VARCHAR{sorts} {rule}")


def downgrade() -> None:
    """Older shapes come back from a backup, never by force."""
    raise NotImplementedError("restore the backup that was made before the upgrade")
