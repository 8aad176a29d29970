"""Where things are kept, as narrow protocols: halls, plans, accounts, the trail, upkeep.

One implementation speaks to a database; the same suite holds it on SQLite, in memory and on
PostgreSQL. Every method is one transaction: old or new, never half. Instants are aware, in UTC.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Protocol

from roundwright.accounts.account import Account
from roundwright.hall.hall import Hall
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.document import PlanDocument
from roundwright.services.keeping.records import KeptHall, RecordEdit


@dataclass(frozen=True, slots=True)
class Actor:
    """On whose behalf something is kept: an account, or the tool itself; and when."""

    account_id: str | None
    role: str
    at: datetime


@dataclass(frozen=True, slots=True)
class TrailEntry:
    """One line of the trail: who did or saw what of whom; never a health value.

    `what` is a slug such as `health.seen`, `health.changed`, `person.deleted`,
    `plan.changed`, `account.signed_in`.
    """

    at: datetime
    account_id: str | None
    role: str
    what: str
    hall_id: str | None = None
    person_id: str | None = None
    about: str = ""


@dataclass(frozen=True, slots=True)
class HallEntry:
    """A hall in the list of halls."""

    hall_id: str
    name: str
    version: int


@dataclass(frozen=True, slots=True)
class PlanEntry:
    """A plan in the list of plans: which class, when, which revision is current.

    `kept_no` rises within the hall each time that a plan is kept, changed, undone or redone.
    """

    plan_id: str
    class_id: str
    on: date
    revision: int
    made_at: datetime
    kept_no: int


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """A plan as it is kept: one revision's document, all revisions, and its number in the order."""

    document: PlanDocument
    revisions: Revisions
    kept_no: int


@dataclass(frozen=True, slots=True)
class Session:
    """Somebody signed in. Only a hash of the token is kept."""

    token_hash: str
    account_id: str
    begun_at: datetime
    ends_at: datetime


class HallShelf(Protocol):
    """Keeps halls."""

    def halls(self) -> tuple[HallEntry, ...]:
        """List the halls, by name."""

    def version(self, hall_id: str) -> int:
        """Give a hall's version without reading it.

        Raises
        ------
        NotFoundError
            No such hall.
        """

    def opened(self, hall_id: str) -> KeptHall:
        """Give a hall, checked like a hall folder.

        Raises
        ------
        NotFoundError
            No such hall.
        """

    def person_ids(self, hall_id: str) -> frozenset[str]:
        """Give every id that a person of the hall has or ever had: none is given twice.

        Raises
        ------
        NotFoundError
            No such hall.
        """

    def begin(self, hall_id: str, hall: Hall, by: Actor) -> KeptHall:
        """Keep a new hall.

        Raises
        ------
        ChangedMeanwhileError
            There is a hall of that id.
        """

    def replace(self, hall_id: str, hall: Hall, base_version: int, by: Actor) -> KeptHall:
        """Put an imported hall in place of one; plans stay.

        Raises
        ------
        ChangedMeanwhileError
            The hall was changed since `base_version`, with what changed.
        """

    def edit(self, hall_id: str, edits: Sequence[RecordEdit], by: Actor) -> KeptHall:
        """Write or remove records, all or none; the whole hall is checked before it is kept.

        Raises
        ------
        ChangedMeanwhileError
            A record is not what it was at its `base_version`: which, by whom, when.
        BadInputError
            With every fault that the hall would have; nothing was changed.
        """

    def forget_person(self, hall_id: str, person_id: str, by: Actor) -> int:
        """Delete a person for good and give how many plans were emptied of their entries.

        Records of the person and of their health go, and they leave every class; in kept plans
        their entries in `problem` are emptied while `core` and digests stay.
        """

    def remove(self, hall_id: str, by: Actor) -> None:
        """Delete a hall with everything that is kept of it."""


class PlanShelf(Protocol):
    """Keeps plans as immutable revisions with the problem that they answered."""

    def plans(
        self, hall_id: str, days: Collection[date] | None = None, class_id: str | None = None
    ) -> tuple[PlanEntry, ...]:
        """List plans in the order in which they were kept, of some days or one class."""

    def opened(self, hall_id: str, plan_id: str, revision: int | None = None) -> KeptPlan:
        """Give a plan at its current or another revision, as it was judged when it was kept.

        Raises
        ------
        NotFoundError
            No such plan or revision.
        """

    def recent(self, hall_id: str, days: Collection[date]) -> tuple[PlanDocument, ...]:
        """Give the current revisions of the plans of some days: recent work."""

    def keep(self, hall_id: str, document: PlanDocument, by: Actor) -> KeptPlan:
        """Keep a new plan.

        Raises
        ------
        UnsafePlanError
            The gate says never.
        """

    def keep_change(
        self,
        hall_id: str,
        document: PlanDocument,
        grown: Revisions,
        before: Revisions,
        by: Actor,
    ) -> KeptPlan:
        """Keep a change: the new revision and the pointer to it.

        Raises
        ------
        ChangedMeanwhileError
            The plan was changed since `before` was read, with what was done since.
        UnsafePlanError
            The gate says never.
        """

    def move(self, hall_id: str, moved: Revisions, before: Revisions, by: Actor) -> KeptPlan:
        """Point to another revision: undo or redo.

        Raises
        ------
        ChangedMeanwhileError
            The plan was changed since `before` was read.
        """


class AccountShelf(Protocol):
    """Keeps accounts and who is signed in."""

    def accounts(self) -> tuple[Account, ...]:
        """List accounts, closed ones too."""

    def by_sign_in_name(self, name: str) -> Account | None:
        """Give the account of a sign-in name."""

    def account(self, account_id: str) -> Account | None:
        """Give an account."""

    def keep_account(self, account: Account, by: Actor) -> Account:
        """Write a new account (version 1) or a changed one (the version seen, plus one).

        Raises
        ------
        ChangedMeanwhileError
            It was changed meanwhile, or the sign-in name is taken.
        """

    def begin_session(self, session: Session) -> None:
        """Keep a session."""

    def session(self, token_hash: str) -> Session | None:
        """Give a session; ended ones too."""

    def end_sessions(self, account_id: str, but: str | None = None) -> int:
        """End an account's sessions, but for one token's, and give how many."""


class Trail(Protocol):
    """Keeps who saw and changed what."""

    def add(self, entries: Sequence[TrailEntry]) -> None:
        """Add lines."""

    def entries(
        self, hall_id: str | None = None, person_id: str | None = None, most: int = 200
    ) -> tuple[TrailEntry, ...]:
        """Give the newest lines first."""


class Upkeep(Protocol):
    """Cares for the database itself."""

    def backup(self, to: Path) -> None:
        """Write a whole copy while the house is in use.

        Raises
        ------
        StoreError
            It could not be written; what was there is as it was.
        """

    def faults(self) -> tuple[str, ...]:
        """Check the database and give what is wrong with it, in plain words."""
