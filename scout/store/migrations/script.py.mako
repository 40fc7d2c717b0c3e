"""${message}."""

import sqlalchemy as sa
import sqlmodel
from alembic import op
${imports if imports else ""}
revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Bring the tables to this revision."""
    ${upgrades if upgrades else "pass"}


def downgrade() -> None:
    """Older shapes come back from a backup, never by force."""
    raise NotImplementedError("restore the backup that was made before the upgrade")
