"""The first tables: halls, records by privacy, plans, accounts, sessions, the trail."""

import sqlalchemy as sa
from alembic import op

from roundwright.foundation.errors import StoreError

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "hall",
        sa.Column("hall_id", sa.Text, primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("stamp", sa.Text, nullable=False),
        sa.Column("changed_at", sa.Text, nullable=False),
        sa.Column("changed_by", sa.Text, nullable=False),
        sa.Column("changed_account", sa.Text),
    )
    for name in ("hall_record", "person_record", "health_record"):
        op.create_table(
            name,
            sa.Column(
                "hall_id",
                sa.Text,
                sa.ForeignKey("hall.hall_id", ondelete="CASCADE"),
                primary_key=True,
            ),
            sa.Column("kind", sa.Text, primary_key=True),
            sa.Column("key", sa.Text, primary_key=True),
            sa.Column("place", sa.Integer, nullable=False),
            sa.Column("person_id", sa.Text),
            sa.Column("values", sa.Text, nullable=False),
            sa.Column("version", sa.Integer, nullable=False),
            sa.Column("hall_version", sa.Integer, nullable=False),
            sa.Column("changed_at", sa.Text, nullable=False),
            sa.Column("changed_by", sa.Text, nullable=False),
            sa.Column("changed_account", sa.Text),
        )
        if name != "hall_record":
            op.create_index(f"{name}_person", name, ["hall_id", "person_id"])
    op.create_table(
        "plan",
        sa.Column(
            "hall_id",
            sa.Text,
            sa.ForeignKey("hall.hall_id", ondelete="CASCADE"),
            primary_key=True,
        ),
        sa.Column("plan_id", sa.Text, primary_key=True),
        sa.Column("class_id", sa.Text, nullable=False),
        sa.Column("on_day", sa.Text, nullable=False),
        sa.Column("kept_no", sa.Integer, nullable=False),
        sa.Column("made_at", sa.Text, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("revisions", sa.Text, nullable=False),
        sa.Column("changed_at", sa.Text, nullable=False),
        sa.Column("changed_by", sa.Text, nullable=False),
    )
    op.create_index("plan_by_day", "plan", ["hall_id", "on_day"])
    op.create_index("plan_by_class", "plan", ["hall_id", "class_id"])
    op.create_table(
        "plan_revision",
        sa.Column("hall_id", sa.Text, primary_key=True),
        sa.Column("plan_id", sa.Text, primary_key=True),
        sa.Column("revision", sa.Integer, primary_key=True),
        sa.Column("document", sa.Text, nullable=False),
        sa.Column("made_at", sa.Text, nullable=False),
        sa.ForeignKeyConstraint(
            ["hall_id", "plan_id"], ["plan.hall_id", "plan.plan_id"], ondelete="CASCADE"
        ),
    )
    op.create_table(
        "account",
        sa.Column("account_id", sa.Text, primary_key=True),
        sa.Column("sign_in_name", sa.Text, nullable=False, unique=True),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("values", sa.Text, nullable=False),
    )
    op.create_table(
        "session",
        sa.Column("token_hash", sa.Text, primary_key=True),
        sa.Column(
            "account_id",
            sa.Text,
            sa.ForeignKey("account.account_id", ondelete="CASCADE"),
            nullable=False,
        ),
        sa.Column("begun_at", sa.Text, nullable=False),
        sa.Column("ends_at", sa.Text, nullable=False),
    )
    op.create_index("ix_session_account_id", "session", ["account_id"])
    op.create_table(
        "trail",
        sa.Column("trail_no", sa.Integer, primary_key=True, autoincrement=True),
        sa.Column("at", sa.Text, nullable=False),
        sa.Column("account_id", sa.Text),
        sa.Column("role", sa.Text, nullable=False),
        sa.Column("what", sa.Text, nullable=False),
        sa.Column("hall_id", sa.Text),
        sa.Column("person_id", sa.Text),
        sa.Column("about", sa.Text, nullable=False),
    )


def downgrade() -> None:
    """Refuse: an older program would lose what it does not know."""
    raise StoreError(
        "A database does not go back to an older form. Nothing was changed.",
        "Restore a backup that the older version made.",
    )
