from datetime import date
from itertools import pairwise

import pytest

from roundwright.body.anatomy import Limb, Side
from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.goals.class_wish import CountUnit
from roundwright.library.vocabulary import Demand
from roundwright.people.person import Clearance
from roundwright.plan.build_problem import build_problem
from roundwright.plan.rule_table import RuleTable
from tests.hall.hall_files import CLASS, LIMITATIONS, hall_files, read

WEEKLY = CLASS.replace("on = 2026-03-03", 'weekday = "tuesday"')
PEOPLE = """person_id,shown_name,birth_year,sex,body_mass_kg,level,level_squat,classes_done,\
last_class_on,clearance
p001,Maren T,1956,f,62,3,4,48,2026-02-10,cleared
p002,Sunny L,,,,,,,,
p003,Kit O,2011,m,50,2,,4,2026-03-20,cleared
"""


def problem(**texts):
    hall = read(hall_files(**({"people": PEOPLE} | texts)))
    return build_problem(hall, "tuesday", date(2026, 3, 1))


@pytest.mark.parametrize(
    ("on", "held"),
    [
        (date(2026, 3, 3), date(2026, 3, 3)),
        (date(2026, 3, 4), date(2026, 3, 10)),
        (date(2026, 3, 9), date(2026, 3, 10)),
    ],
)
def test_a_weekly_class_is_held_on_or_next_after_the_day(on, held):
    hall = read(hall_files(tuesday=WEEKLY))
    assert build_problem(hall, "tuesday", on).spec.starts_on == held


def test_a_weekly_class_without_a_day_says_what_is_missing():
    hall = read(hall_files(tuesday=WEEKLY))
    with pytest.raises(BadInputError, match="every tuesday: say on or after which date"):
        build_problem(hall, "tuesday")


def test_a_class_with_its_own_date_needs_none():
    assert build_problem(read(hall_files()), "tuesday").spec.starts_on == date(2026, 3, 3)


def test_a_weekly_class_on_a_day_without_its_hour_is_refused():
    sunday = WEEKLY.replace('"tuesday"', '"sunday"', 1).replace("18:30", "01:30")
    hall = read(hall_files(tuesday=sunday))
    assert build_problem(hall, "tuesday", date(2026, 3, 16)).spec.starts_on == date(2026, 3, 22)
    with pytest.raises(BadInputError, match="missing"):
        build_problem(hall, "tuesday", date(2026, 3, 23))


def test_an_unknown_class_gives_the_nearest():
    with pytest.raises(NotFoundError, match="Nearest: tuesday"):
        build_problem(read(hall_files()), "tusday")


def test_everything_is_judged_on_the_class_date():
    people = problem().people
    assert people["p001"].days_since_last == 21
    assert (people["p001"].youngest_age, people["p001"].oldest_age) == (69, 70)
    assert people["p003"].days_since_last is None


def test_what_is_unknown_stays_unknown_or_counts_as_least():
    sunny = problem().people["p002"]
    assert sunny.level == 1
    assert sunny.body_mass_assumed
    assert sunny.classes_done is None
    assert sunny.clearance is Clearance.UNKNOWN
    assert sunny.oldest_age is None


def test_the_young_have_no_adult_norms_and_the_others_all_nine():
    people = problem().people
    assert [len(people[p].capacities) for p in ("p001", "p002", "p003")] == [9, 9, 0]


def test_limits_come_without_their_reasons():
    made = problem()
    maren = made.people["p001"]
    assert maren.caps[Demand.IMPACT] == 0
    assert maren.first_side is Side.RIGHT
    assert "no jumps" in maren.actions
    assert "avoid" not in made.model_dump_json(by_alias=True)


def test_limits_start_on_their_day():
    young = PEOPLE.replace("1956", "1990")
    later = LIMITATIONS.replace("2026-01-05", "2026-03-04")
    assert problem(limitations=later, people=young).people["p001"].caps == {}


def test_age_limits_on_the_class_date_and_the_sheet_says_what_to_do():
    people = problem(limitations=LIMITATIONS.split("\n")[0] + "\n").people
    assert people["p001"].caps[Demand.ONE_FOOT_LANDING] == 0
    assert "up and down slowly" in people["p001"].actions
    assert people["p002"].caps == {}
    assert "body weight only" in people["p003"].actions
    assert people["p003"].effort_cap == 7


def test_the_ages_that_limit_are_those_of_the_rules():
    hall = read(hall_files(people=PEOPLE))
    rules = RuleTable(old_age=75, child_age=12)
    people = build_problem(hall, "tuesday", rules=rules).people
    assert "body weight only" not in people["p003"].actions
    assert "up and down slowly" not in people["p001"].actions


def test_a_row_says_that_somebody_is_a_child_where_the_year_is_not_known():
    row = LIMITATIONS + "p002,under_16,none,ease,2026-01-05\n"
    sunny = problem(limitations=row).people["p002"]
    assert (sunny.youngest_age, sunny.capacities) == (15, ())


def test_weeks_are_counted_to_the_class_date():
    head, _, _ = LIMITATIONS.partition("\n")
    early = f"{head},weeks\np002,pregnancy,none,ease,2026-02-23,11\n"
    late = early.replace(",11\n", ",12\n")
    caps = [problem(limitations=text).people["p002"].caps for text in (early, late)]
    assert [c[Demand.ON_FRONT] for c in caps] == [1, 0]


def test_the_side_that_is_not_used_comes_over():
    row = LIMITATIONS + "p002,one_arm,left,avoid,2026-01-05\n"
    assert problem(limitations=row).people["p002"].unused == {Limb.ARM: Side.LEFT}


def test_the_library_holds_what_the_class_and_its_substitutes_use():
    made = problem()
    assert set(made.library.combinations) == {"split_squats_press"}
    assert "skip_line" in made.library.lines
    assert "skip_line" not in made.substitutes
    assert set(made.substitutes) == set(made.library.lines) - {"skip_line"}
    assert all(a < b for a, b in pairwise(made.substitutes))


def test_a_timed_exercise_without_a_count_takes_the_work_time():
    text = CLASS.replace("rounds = 2", 'rounds = 2\npace = "timed"\nwork = "40 s"')
    bare = "\n".join(line for line in text.split("\n") if not line.startswith("count"))
    counts = [e.count for e in problem(tuesday=bare).spec.exercises]
    assert [(c.value, c.unit) for c in counts] == [(40, CountUnit.SECONDS)] * 2


def test_a_banned_line_bans_all_its_versions():
    text = CLASS.replace("rounds = 2", 'rounds = 2\nban = ["squat", "step_up_line"]')
    assert problem(tuesday=text).spec.ban == ("squat", "step_up", "box_jump")


def test_only_the_people_of_the_class_are_in_it():
    text = CLASS.replace("rounds = 2", 'rounds = 2\npeople = ["p003", "p001"]')
    assert set(problem(tuesday=text).people) == {"p001", "p003"}


def test_other_rules_can_be_given():
    hall = read(hall_files())
    other = RuleTable(most_versions=2)
    assert build_problem(hall, "tuesday", rules=other).rules.most_versions == 2


def test_chances_and_kit_come_over_as_they_are():
    made = problem()
    assert made.spec.chance_on_time_bp == 9000
    assert [d.unit_mass_g for d in made.kit.dumbbells] == [8000, 9072]
    assert made.room.id == "main_floor"
