"""Figures as they are shown: a chance never seems better than it is, and its two forms agree."""

import pytest

from roundwright.foundation.shown import per_cent, times_in_ten

TENTHS = {"less than once in 10": 0, "once in 10": 1}


@pytest.mark.parametrize("chance_bp", [*range(0, 9900, 37), 999, 1000, 1999, 2000, 9000, 9899])
def test_times_in_ten_never_promises_more_and_agrees_with_the_per_cent(chance_bp: int) -> None:
    words = times_in_ten(chance_bp)
    tenths = TENTHS[words] if words in TENTHS else int(words.removesuffix(" times in 10"))
    assert tenths * 1000 <= chance_bp < (tenths + 1) * 1000
    whole = int(per_cent(chance_bp).removesuffix(" %"))
    assert whole * 100 <= chance_bp
    assert whole // 10 == tenths


@pytest.mark.parametrize("chance_bp", [9900, 9999, 10_000])
def test_a_chance_of_99_per_cent_is_nearly_always(chance_bp: int) -> None:
    assert times_in_ten(chance_bp) == "nearly always"


def test_a_chance_just_missed_is_not_shown_as_the_one_that_is_wanted() -> None:
    assert per_cent(8999) == "89 %"
    assert per_cent(9000) == "90 %"
