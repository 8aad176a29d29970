"""The tables of the database as the program of today uses them; how they came is in migrations.

Records are in three tables of one shape, one for each class of privacy. `values` is canonical
JSON text. `hall_version` is the hall's version at which a record was written last.
"""

from sqlalchemy import (
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
)

from roundwright.services.keeping.records import Privacy

METADATA = MetaData()

HALL = Table(
    "hall",
    METADATA,
    Column("hall_id", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("version", Integer, nullable=False),
    Column("stamp", Text, nullable=False),
    Column("changed_at", Text, nullable=False),
    Column("changed_by", Text, nullable=False),
    Column("changed_account", Text),
)
"""`stamp` is drawn when a hall is begun: a hall that was removed and begun anew is another one."""


def _record_table(name: str) -> Table:
    table = Table(
        name,
        METADATA,
        Column("hall_id", Text, ForeignKey("hall.hall_id", ondelete="CASCADE"), primary_key=True),
        Column("kind", Text, primary_key=True),
        Column("key", Text, primary_key=True),
        Column("place", Integer, nullable=False),
        Column("person_id", Text),
        Column("values", Text, nullable=False),
        Column("version", Integer, nullable=False),
        Column("hall_version", Integer, nullable=False),
        Column("changed_at", Text, nullable=False),
        Column("changed_by", Text, nullable=False),
        Column("changed_account", Text),
    )
    if name != "hall_record":
        Index(f"{name}_person", table.c.hall_id, table.c.person_id)
    return table


RECORDS: dict[Privacy, Table] = {
    Privacy.HALL: _record_table("hall_record"),
    Privacy.PERSON: _record_table("person_record"),
    Privacy.HEALTH: _record_table("health_record"),
}
"""The table of each class of privacy."""

REMOVED = Table(
    "removed_record",
    METADATA,
    Column("hall_id", Text, ForeignKey("hall.hall_id", ondelete="CASCADE"), primary_key=True),
    Column("kind", Text, primary_key=True),
    Column("key", Text, primary_key=True),
    Column("version", Integer, nullable=False),
    Column("hall_version", Integer, nullable=False),
    Column("changed_at", Text, nullable=False),
    Column("changed_by", Text, nullable=False),
)
"""Which records were there and are not any more, without what they held: ids are not reused."""

PLAN = Table(
    "plan",
    METADATA,
    Column("hall_id", Text, ForeignKey("hall.hall_id", ondelete="CASCADE"), primary_key=True),
    Column("plan_id", Text, primary_key=True),
    Column("class_id", Text, nullable=False),
    Column("on_day", Text, nullable=False),
    Column("kept_no", Integer, nullable=False),
    Column("made_at", Text, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("revisions", Text, nullable=False),
    Column("changed_at", Text, nullable=False),
    Column("changed_by", Text, nullable=False),
)
Index("plan_by_day", PLAN.c.hall_id, PLAN.c.on_day)
Index("plan_by_class", PLAN.c.hall_id, PLAN.c.class_id)

PLAN_REVISION = Table(
    "plan_revision",
    METADATA,
    Column("hall_id", Text, primary_key=True),
    Column("plan_id", Text, primary_key=True),
    Column("revision", Integer, primary_key=True),
    Column("document", Text, nullable=False),
    Column("made_at", Text, nullable=False),
    ForeignKeyConstraint(
        ["hall_id", "plan_id"], ["plan.hall_id", "plan.plan_id"], ondelete="CASCADE"
    ),
)

ACCOUNT = Table(
    "account",
    METADATA,
    Column("account_id", Text, primary_key=True),
    Column("sign_in_name", Text, nullable=False, unique=True),
    Column("version", Integer, nullable=False),
    Column("values", Text, nullable=False),
)

SESSION = Table(
    "session",
    METADATA,
    Column("token_hash", Text, primary_key=True),
    Column(
        "account_id",
        Text,
        ForeignKey("account.account_id", ondelete="CASCADE"),
        nullable=False,
        index=True,
    ),
    Column("begun_at", Text, nullable=False),
    Column("ends_at", Text, nullable=False),
)

TRAIL = Table(
    "trail",
    METADATA,
    Column("trail_no", Integer, primary_key=True, autoincrement=True),
    Column("at", Text, nullable=False),
    Column("account_id", Text),
    Column("role", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("hall_id", Text),
    Column("person_id", Text),
    Column("about", Text, nullable=False),
)
Index("trail_by_person", TRAIL.c.hall_id, TRAIL.c.person_id)
