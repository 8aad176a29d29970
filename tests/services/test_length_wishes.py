"""What is said of rounds, work and rest: understood, or told to be not understood."""

import pytest

from roundwright.goals.class_wish import WorkRestWish
from roundwright.services.length_wishes import rounds_asked, work_rest_asked


@pytest.mark.parametrize(
    ("texts", "rounds"),
    [
        ((), ()),
        (("2",), (2,)),
        (("4", "any"), (4, 3, 2)),
        (("any",), (3, 2, 4)),
        (("0",), None),
        (("11",), None),
        (("two",), None),
        (("³",), None),
        (("-1",), None),
        (("99999999999",), None),
    ],
)
def test_rounds(texts, rounds):
    assert rounds_asked(texts) == rounds


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("own", WorkRestWish.OWN),
        ("any", WorkRestWish.ANY),
        ("heavier", WorkRestWish.HEAVIER),
        ("40:20", (40, 20)),
        ("600:600", (600, 600)),
        ("40:0", (40, 0)),
        ("0:20", None),
        ("601:20", None),
        ("40:601", None),
        ("40", None),
        ("40:", None),
        ("40:20:10", None),
        ("hard", None),
        ("", None),
    ],
)
def test_work_and_rest(text, found):
    assert work_rest_asked(text) == found
