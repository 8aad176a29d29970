"""A movement of one's own from plain fields: its text is sound, or every fault comes at once."""

from collections.abc import Mapping

from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.body.posture import Posture
from roundwright.bootstrap.shipped_bodies import shipped_bodies
from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.library.catalogue_text import read_catalogue
from roundwright.library.vocabulary import Demand
from roundwright.services.write_movement import FIELDS, FORM, write_movement

PULSE: dict[str, object] = {
    "like": "Split squat",
    "name": "Pulse split squat",
    "cues": "Small and smooth.\nStay low.",
    "seconds_a_rep": "3,5",
    "demands": {"knee": "3"},
    "easier": ["supported_split_squat"],
    "harder": "Split squat with dumbbells",
    "up": "Ten a side, two classes running.",
    "down": "Pain of three of ten or more.",
}
POSTURE = '[posture.pulse_split_squat]\nlike = "split_squat"\n'


def nobody() -> Mapping[str, Posture]:
    """Give no postures: for forms that have none."""
    raise AssertionError("no posture was to be judged")


def written(**more):
    """Write the pulse split squat with some fields changed; None takes one away."""
    return write_movement(PULSE | more, shipped_catalogue(), nobody)


def test_a_movement_like_another_is_sound_library_text():
    made = written()
    assert made.faults == ()
    grown, faults = read_catalogue({"own.toml": made.text}, shipped_catalogue())
    assert faults == ()
    movement, like = grown.movements[made.slug], grown.movements["split_squat"]
    assert (movement.seconds_a_rep, movement.demand(Demand.KNEE)) == (3.5, 3)
    assert movement.demand(Demand.BALANCE) == like.demand(Demand.BALANCE) > 0
    assert movement.floor == like.floor
    assert movement.teaching.cues == ("Small and smooth.", "Stay low.")
    assert movement.teaching.steps == like.teaching.steps
    versions = ("supported_split_squat", "pulse_split_squat", "dumbbell_split_squat")
    assert grown.lines[made.line_slug].versions == versions


def test_a_movement_like_a_shipped_one_is_the_same_but_for_its_name():
    catalogue = shipped_catalogue()
    for slug in ("goblet_squat", "bench_one_arm_row", "rope_skipping", "standing_band_row"):
        like = catalogue.movements[slug]
        form = {"like": slug, "name": "A name of our own", "up": "Seen.", "down": "Seen."}
        made = write_movement(form, catalogue, nobody)
        assert made.faults == (), slug
        grown, _ = read_catalogue({"own.toml": made.text}, catalogue)
        same = {"slug": slug, "name": like.name, "was": like.was, "posture": like.posture}
        assert grown.movements[made.slug].model_copy(update=same) == like


def test_no_posture_and_less_asked_are_said():
    assert written().said == ("It has no posture, and so no pictures.",)
    said = written(demands={"balance": 1}).said
    assert "It asks less than Split squat: balance 1, there 2." in said


def test_every_fault_comes_at_once_by_its_field():
    made = written(
        nam="x", like="Splt squat", level="9", easier="nothing at all", posture="knee = 90"
    )
    by_field = {fault.field: fault for fault in made.faults}
    assert by_field["nam"].nearest == ("name",)
    assert "Split squat" in by_field["like"].nearest
    assert {"easier", "posture"} <= by_field.keys()
    assert by_field["movement.pulse_split_squat.level"].code == "field.range"
    assert "movement.pulse_split_squat.teaching.set_up" in by_field
    assert {fault.file for fault in made.faults} == {FORM}
    assert made.said == ()


def test_a_taken_name_is_a_fault_and_a_taken_short_name_is_not():
    made = written(name="Split squat")
    assert made.slug == "split_squat_2"
    assert {f.code for f in made.faults} == {"name.duplicate"}


def test_criteria_of_versions_with_landings_come_along():
    form = {
        "like": "Squat to heel raise", "name": "Squat to heel raise with a pause",
        "harder": "Squat jump with reset", "up": "Silent.", "down": "Sore.",
    }  # fmt: skip
    catalogue = shipped_catalogue()
    made = write_movement(form, catalogue, nobody)
    assert made.faults == ()
    grown, _ = read_catalogue({"own.toml": made.text}, catalogue)
    shipped = catalogue.lines["squat_jumps"].min_classes_for("squat_jump_reset")
    assert grown.lines[made.line_slug].min_classes_for("squat_jump_reset") == shipped > 0


def test_a_movement_with_landings_needs_its_own_criteria():
    form = {"like": "Jumping jack", "name": "Slow jack", "up": "Soft.", "down": "Loud."}
    catalogue = shipped_catalogue()
    without = write_movement(form, catalogue, nobody)
    assert [f.field for f in without.faults] == ["line.slow_jack_line.steps"]
    criteria = {"min_classes": "4", "seen": "Ten silent landings."}
    assert write_movement(form | criteria, catalogue, nobody).faults == ()


def test_a_posture_is_judged_by_the_rules_of_the_shipped_ones():
    def shipped():
        return shipped_bodies().postures

    catalogue = shipped_catalogue()
    made = write_movement(PULSE | {"posture": POSTURE}, catalogue, shipped)
    assert (made.faults, made.said) == ((), ())
    assert POSTURE.strip() in made.text
    with_bench = POSTURE + 'touch = { foot_left = "bench" }\n'
    bad = write_movement(PULSE | {"posture": with_bench}, catalogue, shipped)
    assert any(f.field == "movement.pulse_split_squat.kit" for f in bad.faults)
    other = POSTURE.replace("pulse_", "other_")
    wrong = write_movement(PULSE | {"posture": other}, catalogue, nobody)
    assert [f.field for f in wrong.faults] == ["posture"]


values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=2) | st.dictionaries(st.text(max_size=4), inner, max_size=2)
    ),
    max_leaves=4,
)


@settings(max_examples=80, deadline=None)
@given(st.dictionaries(st.sampled_from(FIELDS) | st.text(max_size=5), values, max_size=6))
def test_any_form_gives_text_or_faults(form):
    made = write_movement(form | {"posture": ""}, shipped_catalogue(), nobody)
    assert made.faults
    assert made.said == ()
