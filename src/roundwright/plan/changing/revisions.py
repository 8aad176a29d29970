"""Revisions of one plan and the pointer along them: section C6 of *How a plan is changed*."""

from dataclasses import dataclass

from pydantic import Field, model_validator

from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError
from roundwright.foundation.model import Stored
from roundwright.plan.changing.change import Change
from roundwright.plan.document import PlanDocument


class Revision(Stored):
    """One immutable state of a plan: its number, where it came from, and what was asked.

    `sentence` says in one sentence what the change did, without names.
    """

    revision: int = Field(ge=1)
    parent: int | None = None
    digest: str
    change: Change | None = Field(default=None, repr=False)
    sentence: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One change of a plan, between the revision it was asked of and the one it gave."""

    before: PlanDocument
    change: Change
    after: PlanDocument


class Revisions(Stored):
    """The tree of revisions of one plan, and which one is current.

    `ways_forward` remembers for each revision the child that was left last, which is
    where redo goes.
    """

    plan_id: str
    revisions: tuple[Revision, ...]
    current: int
    ways_forward: dict[int, int] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _is_a_tree(self) -> "Revisions":
        known: set[int] = set()
        for one in self.revisions:
            if one.revision in known or (one.parent is not None and one.parent not in known):
                raise ValueError("every revision comes once, after its parent")
            known.add(one.revision)
        if self.current not in known:
            raise ValueError("the current revision is one of them")
        return self

    @classmethod
    def begun(cls, plan_id: str, digest: str, revision: int = 1) -> "Revisions":
        """Begin with the first plan."""
        first = Revision(revision=revision, digest=digest)
        return cls(plan_id=plan_id, revisions=(first,), current=revision)

    def at(self, revision: int) -> Revision:
        """Give one revision.

        Raises
        ------
        NotFoundError
            The plan has no such revision.
        """
        for one in self.revisions:
            if one.revision == revision:
                return one
        raise NotFoundError(f"This plan has no revision {revision}.")

    @property
    def next_number(self) -> int:
        """Give the number of the next accepted change; numbers are never used again."""
        return max(one.revision for one in self.revisions) + 1

    @property
    def can_undo(self) -> bool:
        """Whether the current revision has a parent that is kept here."""
        return self.at(self.current).parent is not None

    @property
    def can_redo(self) -> bool:
        """Whether there is a revision that was left by undo."""
        return self.current in self.ways_forward

    def with_change(self, base: int, digest: str, change: Change, sentence: str) -> "Revisions":
        """Add an accepted change on top of the current revision.

        Parameters
        ----------
        base : int
            The revision on which the change was asked for.

        Raises
        ------
        ChangedMeanwhileError
            The pointer has moved since: nothing is added, and what happened is said.
        """
        self.require_current(base)
        made = Revision(
            revision=self.next_number, parent=base, digest=digest, change=change, sentence=sentence
        )
        return self.model_copy(
            update={
                "revisions": (*self.revisions, made),
                "current": made.revision,
                "ways_forward": {**self.ways_forward, base: made.revision},
            }
        )

    def require_current(self, base: int) -> None:
        """Refuse an edit that was made on another revision than the current one.

        Raises
        ------
        ChangedMeanwhileError
            With the sentences of what was done since.
        """
        if base == self.current:
            return
        done = [one.sentence for one in self._since(base) if one.sentence]
        told = " ".join(done) if done else f"The plan is at revision {self.current} now."
        raise ChangedMeanwhileError(
            f"The plan was changed meanwhile. {told}",
            "Look at the plan as it is now, then ask again.",
        )

    def undone(self) -> "Revisions":
        """Move to the parent of the current revision; at the first one nothing moves."""
        parent = self.at(self.current).parent
        if parent is None:
            return self
        forward = {**self.ways_forward, parent: self.current}
        return self.model_copy(update={"current": parent, "ways_forward": forward})

    def redone(self) -> "Revisions":
        """Move to the child that was left last; where there is none nothing moves."""
        child = self.ways_forward.get(self.current)
        return self if child is None else self.model_copy(update={"current": child})

    def way_to(self, revision: int) -> tuple[Revision, ...]:
        """Give the revisions from the first that is kept here to one, oldest first."""
        way: list[Revision] = []
        at: int | None = revision
        while at is not None:
            way.append(self.at(at))
            at = way[-1].parent
        return tuple(way[::-1])

    def _since(self, base: int) -> list[Revision]:
        """Give the revisions on the way from `base` to the current one, oldest first."""
        way: list[Revision] = []
        at: int | None = self.current
        while at is not None and at != base:
            one = self.at(at)
            way.append(one)
            at = one.parent
        return way[::-1] if at == base else []
