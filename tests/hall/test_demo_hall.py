from datetime import date
from zoneinfo import ZoneInfo

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from roundwright.goals.class_wish import ClassWish
from roundwright.hall.hall_text import read_hall_texts
from roundwright.hall.written_hall import written_hall
from roundwright.library.vocabulary import Demand
from roundwright.people.person import Clearance
from roundwright.plan.build_problem import build_problem
from roundwright.plan.rule_table import RuleTable
from roundwright.store.hall_folder import read_hall


def demo():
    return read_hall(demo_hall_folder(), shipped_catalogue())


def test_the_demonstration_hall_reads_without_a_fault():
    hall = demo()
    assert hall.settings.name == "Tern Quay Hall"
    assert ZoneInfo(hall.settings.time_zone).key == "Europe/London"
    assert len(hall.people) == 40
    assert len(hall.rooms) == 2


def test_the_demonstration_hall_comes_back_as_it_was():
    hall = demo()
    assert read_hall_texts(written_hall(hall), shipped_catalogue()) == hall


def test_people_of_all_sorts_come():
    problem = build_problem(demo(), DEMO_CLASS, date(2026, 3, 1))
    people = problem.people.values()
    rules = RuleTable()
    assert {p.clearance for p in people} == set(Clearance)
    assert any(p.effort_only for p in people)
    assert any(p.body_mass_assumed for p in people)
    assert any((p.days_since_last or 0) >= rules.away_days for p in people)
    assert any((p.oldest_age or 0) >= 70 for p in people)
    assert any(Demand.ON_BACK in p.caps for p in people)
    assert any(p.caps.get(Demand.KNEE) == 1 for p in people)
    assert 1 <= sum(p.classes == 0 for p in people) <= rules.most_first_timers
    assert len(problem.taking_part) <= rules.people_a_coach
    assert any(d.count % 2 for d in problem.kit.dumbbells)


def test_the_class_keeps_its_floors_and_leaves_time_to_clear_up():
    wish = demo().classes[DEMO_CLASS]
    rules = RuleTable()
    assert wish.warm_up_s >= rules.warm_up_eased_s
    assert wish.cool_down_s >= rules.cool_down_floor_s
    assert wish.change_s >= rules.change_floor_s
    assert wish.rest_s >= rules.rest_floor_s
    assert _longest_s(wish) <= wish.slot_s - rules.register_and_clear_s


def _longest_s(wish: ClassWish) -> int:
    """Give the class's length by hand: seconds a rep of the slowest version, oldest pace 1.4."""
    seconds = {
        "squat_press": 8 * (3.0 + 2.5 + 0.7),
        "one_arm_rows": 2 * 8 * 2.5,
        "split_squats": 2 * 6 * 3.0,
        "push_ups": 10 * 2.5,
        "hinges": 12 * 3.0,
    }
    work = sum(1.4 * seconds[entry.exercise] for entry in wish.exercise) + 2 * wish.side_change_s
    changes = len(wish.exercise) * wish.change_s
    burst_s = wish.burst.length_s if wish.burst else 0
    breaks = (wish.rounds - 1) * (burst_s + wish.rest_s)
    edges = wish.warm_up_s + wish.demonstration_s + wish.cool_down_s
    return round(edges + wish.rounds * (work + changes) + breaks)
