"""Counts worked by hand: what each count unit, listing and round comes to."""

from roundwright.goals.class_wish import AfterLastRound, BurstWish
from roundwright.library.combination import Part
from roundwright.library.vocabulary import DoneAs, Laterality
from roundwright.plan.core import CellState
from roundwright.plan.count import count_of
from tests.dose.hand_made_core import (
    BOTH,
    LEFT,
    RIGHT,
    a_cell,
    a_core,
    a_dose,
    count,
    steps,
)
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    lifting,
    reps,
)


def _library(**combination):
    movements = (
        a_movement("squat", kit=lifting(), lifted_share=0.88),
        a_movement("press", kit=lifting(), seconds_a_rep=2.5),
        a_movement("lunge", laterality=Laterality.ALTERNATING),
        a_movement("row", laterality=Laterality.UNILATERAL, seconds_a_rep=2.5, kit=lifting(1)),
        a_movement("jack", seconds_a_rep=1.0, contacts_a_rep=2),
        a_movement("skip", seconds_a_rep=0.6, low_hops_a_rep=1),
    )
    lines = tuple(a_line(f"{m.slug}_line", m.slug) for m in movements)
    parts = (("squat_line", BOTH), ("press_line", BOTH))
    combo = a_combination("squat_press", *parts, **combination)
    return a_catalogue(movements, lines, (combo,))


def _counted(cells, dose=None, library=None, rounds=1, after=AfterLastRound.BURST, **spec):
    library = library or _library()
    first = (cells[0].exercise_id or "squat_line", reps(1))
    problem = a_problem(
        a_spec(first, rounds=rounds, after_last_round=after, **spec),
        library,
        {"p001": a_person()},
    )
    doses = (dose or a_dose(rounds=tuple(range(1, rounds + 1))),)
    return count_of(a_core(cells, doses, rounds=rounds, after=after), problem).of("p001")


def _of(person, movement_id):
    return next(m for m in person.movements if m.movement_id == movement_id)


def test_16_alternating_are_8_a_side():
    # 16 // 2 = 8 passes of left and right
    listing = steps(("lunge", LEFT), ("lunge", RIGHT))
    lunge = _of(
        _counted((a_cell(1, "lunge_line", listing, count(16, "reps_alternating")),)), "lunge"
    )
    assert (lunge.total, lunge.left, lunge.right, lunge.expected) == (16, 8, 8, False)


def test_12_a_side_are_24_and_a_two_sided_stand_in_keeps_the_24():
    listing = steps(("row", LEFT), ("row", RIGHT))
    row = _of(_counted((a_cell(1, "row_line", listing, count(12, "reps_per_side")),)), "row")
    stand_in = _of(_counted((a_cell(1, "row_line", steps(("squat", BOTH)), count(24)),)), "squat")
    assert (row.left, row.right) == (12, 12)
    assert row.total == stand_in.total == stand_in.both == 24


def test_30_seconds_a_side_are_expected_12_a_side():
    # floor(30 s / 2.5 s) = 12 passes; a pass that is done holds both sides
    listing = steps(("row", RIGHT), ("row", LEFT))
    row = _of(_counted((a_cell(1, "row_line", listing, count(30, "seconds_per_side")),)), "row")
    assert (row.left, row.right, row.expected) == (12, 12, True)


def test_60_seconds_of_six_tenths_are_100_not_99():
    # 60 / 0.6 is 99.99.. in binary fractions
    skip = _counted((a_cell(1, "skip_line", steps(("skip", BOTH)), count(60, "seconds")),))
    assert _of(skip, "skip").total == 100
    assert skip.low_hops == 100
    assert skip.contacts == 0


def test_a_timed_combination_counts_its_links():
    # 40 s / (3.0 + 2.5 + 0.7) s = 6.45 -> 6 passes; without links 7
    listing = steps(("squat", BOTH), ("press", BOTH))
    cells = (a_cell(1, "squat_press", listing, count(40, "seconds")),)
    assert _of(_counted(cells, library=_library(link_s=0.7)), "press").total == 6
    assert _of(_counted(cells, library=_library(link_s=0.0)), "press").total == 7


def test_a_complex_holds_the_same_reps_and_tonnage_as_the_combination():
    # 8 x (squat + press) x 16 kg = 256 kg, in whichever order the parts are done
    listing = steps(("squat", BOTH), ("press", BOTH))
    cells = (a_cell(1, "squat_press", listing, count(8), unit_mass_g=8000, units=2),)
    by_rep = _counted(cells, library=_library(done_as=DoneAs.COMBINATION))
    in_blocks = _counted(cells, library=_library(done_as=DoneAs.COMPLEX))
    assert by_rep.movements == in_blocks.movements
    assert by_rep.tonnage_g == in_blocks.tonnage_g == 256_000


def test_a_part_done_twice_a_pass_counts_twice():
    # 6 passes of squat x 2, press x 1
    parts = (Part(line="squat_line", times=2), Part(line="press_line"))
    library = _library(parts=parts)
    listing = steps(("squat", BOTH, 2), ("press", BOTH))
    person = _counted((a_cell(1, "squat_press", listing, count(6)),), library=library)
    assert (_of(person, "squat").total, _of(person, "press").total) == (12, 6)
    # body tonnage: 12 squats x 0.88 x 70 kg = 739.2 kg
    assert person.body_tonnage_g == 739_200


def test_a_tail_in_the_last_round_counts_there_only():
    # rounds 1 and 2: 10 jacks (20 landings each); round 3, the tail: 10 squats
    cells = (
        a_cell(1, "jack_line", steps(("jack", BOTH)), count(10), round=1),
        a_cell(1, "jack_line", steps(("jack", BOTH)), count(10), round=2),
        a_cell(1, "jack_line", steps(("squat", BOTH)), count(10), round=3),
    )
    person = _counted(cells, rounds=3)
    assert (_of(person, "jack").total, _of(person, "squat").total) == (20, 10)
    assert person.contacts == 40


def test_two_of_three_rounds_count_two_sets_and_two_bursts():
    # 2 x 8 squats; bursts after rounds 1 and 2: 2 x floor(45 s / 1 s) x 2 landings = 180
    burst = BurstWish(line="jack_line", length_s=45)
    dose = a_dose(rounds=(1, 2), burst="jack")
    cells = (a_cell(1, "squat_line", steps(("squat", BOTH)), count(8)),)
    person = _counted(cells, dose, rounds=3, burst=burst)
    assert _of(person, "squat").total == 16
    assert person.contacts == 180
    assert person.burst_s == 90


def test_no_burst_after_the_last_round_when_nothing_follows():
    # 3 rounds, bursts after 1 and 2 only, at the class's 100 a minute: 2 x floor(60 x 100 / 60)
    burst = BurstWish(line="skip_line", length_s=60, rate_a_min=100)
    cells = (a_cell(1, "squat_line", steps(("squat", BOTH)), count(8)),)
    dose = a_dose(rounds=(1, 2, 3), burst="skip")
    nothing = _counted(cells, dose, rounds=3, after=AfterLastRound.NOTHING, burst=burst)
    with_last = _counted(cells, dose, rounds=3, burst=burst)
    assert (nothing.low_hops, with_last.low_hops) == (200, 300)


def test_the_class_rate_is_not_for_movements_without_hops():
    # jacks keep their own second a rep: 60 x 2 landings, not 100 x 2
    burst = BurstWish(line="jack_line", length_s=60, rate_a_min=100)
    cells = (a_cell(1, "squat_line", steps(("squat", BOTH)), count(8)),)
    person = _counted(cells, a_dose(burst="jack"), burst=burst)
    assert (person.contacts, person.low_hops) == (120, 0)


def test_who_sits_out_counts_nothing():
    cell = a_cell(1, None, (), None, state=CellState.SIT_OUT)
    person = _counted((cell,))
    assert person.movements == ()
    assert person.tonnage_g == 0
