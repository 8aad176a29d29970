"""Three questions to whoever came without booking: every reply, the careful one where in doubt."""

from itertools import product

import pytest

from roundwright.people.walk_in import (
    ACTIVE_LEVEL,
    LIGHT_EFFORT,
    Reply,
    ThreeReplies,
    walk_in_outcome,
)


@pytest.mark.parametrize("replies", list(product(Reply, repeat=3)))
def test_every_reply(replies: tuple[Reply, Reply, Reply]) -> None:
    first, second, third = replies
    found = walk_in_outcome(ThreeReplies(*replies))
    assert found.may_train == (first is Reply.NO)
    if found.may_train:
        assert found.level == (ACTIVE_LEVEL if third is Reply.YES else 1)
        assert found.effort_cap == (None if second is Reply.NO else LIGHT_EFFORT)
        assert bool(found.actions) == (second is not Reply.NO)


def test_replies_do_not_show() -> None:
    assert "yes" not in repr(ThreeReplies(Reply.YES, Reply.NO, Reply.UNSURE))
