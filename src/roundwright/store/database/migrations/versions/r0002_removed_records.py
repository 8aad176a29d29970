"""Which records were removed is kept, so that ids are not given twice; the trail by person.

Before this a database has no record of removals, so ids that were given up earlier are not known.
"""

import sqlalchemy as sa
from alembic import op

from roundwright.foundation.errors import StoreError

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table and the index."""
    op.create_table(
        "removed_record",
        sa.Column(
            "hall_id",
            sa.Text,
            sa.ForeignKey("hall.hall_id", ondelete="CASCADE"),
            primary_key=True,
        ),
        sa.Column("kind", sa.Text, primary_key=True),
        sa.Column("key", sa.Text, primary_key=True),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("hall_version", sa.Integer, nullable=False),
        sa.Column("changed_at", sa.Text, nullable=False),
        sa.Column("changed_by", sa.Text, nullable=False),
    )
    op.create_index("trail_by_person", "trail", ["hall_id", "person_id"])


def downgrade() -> None:
    """Refuse: an older program would give ids of people again that old plans still name."""
    raise StoreError(
        "A database does not go back to an older form. Nothing was changed.",
        "Restore a backup that the older version made.",
    )
