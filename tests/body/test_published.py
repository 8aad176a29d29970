"""What the accuracy command prints is computed, and within what the definition page says."""

from roundwright.body.published import EBBEN, PUBLISHED, SUPRAK, checked_figures
from roundwright.bootstrap.shipped_bodies import checked_postures


def test_errors_are_computed_anew_and_within_the_bars() -> None:
    found = checked_figures(checked_postures())
    assert len(found) == len(PUBLISHED)
    for each in found:
        assert each.error == each.model - each.published.value
        if each.published.what == "hands":
            most = 0.08 if each.published.posture == "knees" else 0.05
            assert abs(each.error) < most, each
        else:
            assert 1.4 < each.model < 1.7


def test_what_was_fitted_is_said_and_the_second_table_was_not() -> None:
    fitted = {(p.posture, p.source) for p in PUBLISHED if p.fitted != "not fitted"}
    assert fitted == {("hands_on_61_cm", EBBEN), ("hands_on_30_cm", EBBEN)}
    assert sum(p.source == SUPRAK for p in PUBLISHED) == 4


def test_another_posture_gives_another_error() -> None:
    postures = checked_postures()
    changed = {**postures, "knees": postures["regular"].model_copy(update={"slug": "knees"})}
    one = {(c.published.posture, c.key): c.model for c in checked_figures(postures)}
    two = {(c.published.posture, c.key): c.model for c in checked_figures(changed)}
    assert two["knees", "up"] > one["knees", "up"] + 0.1
