"""Undo and redo: from one kept revision to another, with what that does in words."""

from dataclasses import dataclass
from typing import Literal

from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError
from roundwright.plan.changing.revisions import Revisions
from roundwright.services.changing.said_words import with_names

Way = Literal["undo", "redo"]


@dataclass(frozen=True, slots=True)
class HistoryLine:
    """One revision as it is told: people in `sentence` stand as `{p001}`."""

    revision: int
    parent: int | None
    digest: str
    sentence: str
    is_current: bool
    is_on_the_way: bool


def moved(revisions: Revisions, way: Way, base_revision: int) -> Revisions:
    """Move the pointer one step.

    Parameters
    ----------
    base_revision : int
        The revision that whoever asks has before them.

    Raises
    ------
    ChangedMeanwhileError
        The plan is at another revision now.
    NotFoundError
        There is nothing to undo, or nothing to redo.
    """
    revisions.require_current(base_revision)
    if way == "undo":
        if not revisions.can_undo:
            raise NotFoundError("There is nothing to undo: this is the first plan.")
        return revisions.undone()
    if not revisions.can_redo:
        raise NotFoundError("There is nothing to redo.", "Undo first; a change ends what was left.")
    return revisions.redone()


def history(revisions: Revisions) -> tuple[HistoryLine, ...]:
    """Give every revision, oldest first; also branches that were left."""
    way: set[int] = set()
    at: int | None = revisions.current
    while at is not None:
        way.add(at)
        at = revisions.at(at).parent
    return tuple(
        HistoryLine(
            revision=one.revision,
            parent=one.parent,
            digest=one.digest,
            sentence=one.sentence,
            is_current=one.revision == revisions.current,
            is_on_the_way=one.revision in way,
        )
        for one in sorted(revisions.revisions, key=lambda one: one.revision)
    )


def named_error(error: ChangedMeanwhileError, names: dict[str, str]) -> ChangedMeanwhileError:
    """Give what happened meanwhile with names in the place of ids, for the coach's side."""
    return ChangedMeanwhileError(with_names(error.detail, names), error.next_step)
