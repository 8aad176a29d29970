"""Every kind of clash, way out and wish has plain words, and none of them gives a reason."""

import re
from pathlib import Path

import pytest

import roundwright.optimise
from roundwright.optimise.planning import changes, clash_members, on_time, shopping
from roundwright.plan.outcome import Clash, WayOut
from roundwright.services.clash_words import (
    CLASH_WORDS,
    WAY_WORDS,
    clash_lines,
    shopping_line,
    way_lines,
)
from tests.support.builders import a_kit, a_spec, reps
from tests.why_not.small_menu import a_base, people

BASE = a_base(people(3))
BASE = BASE.model_copy(update={"spec": a_spec(("push_line", reps(8)), ("pull_line", reps(8)))})
NAMES = {"p001": "Ana", "p002": "Ben", "p003": "Cleo"}
OPTIMISE = Path(roundwright.optimise.__path__[0])


def said(*clashes: Clash) -> tuple[str, ...]:
    return clash_lines(clashes, BASE, NAMES, "kg")


def told(*ways: WayOut, with_price: bool = False) -> tuple[str, ...]:
    return way_lines(ways, BASE, NAMES, "kg", with_price=with_price)


def test_every_kind_has_words() -> None:
    assert set(clash_members.KINDS) <= CLASH_WORDS.keys()
    assert {*changes.KINDS, *on_time.ON_TIME_KINDS, shopping.KIND} == WAY_WORDS.keys()


def test_every_kind_that_the_source_makes_is_known() -> None:
    made = {
        (kind, name)
        for path in OPTIMISE.rglob("*.py")
        for kind, name in re.findall(r"(Clash|WayOut)\(\s*kind=\"(\w+)\"", path.read_text("utf-8"))
    }
    assert len(made) > 15
    for kind, name in made:
        assert name in (CLASH_WORDS if kind == "Clash" else WAY_WORDS), name


def test_a_kind_without_words_is_not_passed_over() -> None:
    with pytest.raises(KeyError):
        said(Clash(kind="moon"))
    with pytest.raises(KeyError):
        told(WayOut(kind="moon"))


@pytest.mark.parametrize(
    ("clash", "words"),
    [
        (
            Clash(
                kind="kit", item="dumbbell", figures={"there": 3, "needed": 4, "unit_mass_g": 8000}
            ),
            "Dumbbells of 8 kg, 4 needed and 3 there.",
        ),
        (Clash(kind="persons", persons=("p001", "p003")), "These people: Ana and Cleo."),
        (Clash(kind="position", positions=(2,)), "What is done at 2 (Pull line)."),
        (
            Clash(kind="places", figures={"places": 5, "exercises": 3, "lines": 2}),
            "Five exercises a round, with three to choose from.",
        ),
        (Clash(kind="coverage", item="pull"), "Each class has a pull."),
        (
            Clash(kind="pattern_cap", item="horizontal_push", figures={"figure": 2}),
            "At most two exercises of one kind, here horizontal push.",
        ),
        (Clash(kind="jumping_cap", figures={"figure": 1}), "At most one exercise with jumps."),
        (Clash(kind="ban", item="push"), "Not wanted: Push."),
        (
            Clash(kind="kept_exercise", item="push_line", positions=(1,)),
            "Push line is kept at place 1.",
        ),
        (
            Clash(kind="kept", persons=("p002",), positions=(1,)),
            "The version or load that is kept at 1 (Push line): Ben.",
        ),
    ],
)
def test_a_clash_reads(clash: Clash, words: str) -> None:
    assert said(clash) == (words,)


@pytest.mark.parametrize(
    ("way", "words"),
    [
        (WayOut(kind="format", item="staggered"), "Hold it in staggered groups."),
        (
            WayOut(kind="more_kit", item="dumbbell", figures={"units": 4, "unit_mass_g": 7500}),
            "Two more pairs of 7.5 kg.",
        ),
        (WayOut(kind="more_kit", item="bench", figures={"units": 1}), "One more bench."),
        (
            WayOut(kind="sit_out", positions=(1,), persons=("p001", "p002")),
            "Let Ana and Ben sit out at 1 (Push line).",
        ),
        (WayOut(kind="longer_slot", figures={"minutes": 3}), "Book three more minutes."),
        (
            WayOut(kind="round_less", figures={"rounds": 2}, overrun_s=75),
            "Do two rounds, 1:15 over the slot.",
        ),
        (
            WayOut(kind="fewer_places", figures={"places": 1, "sit_out": 2}),
            "Plan one exercise a round, where two people sit out somewhere.",
        ),
        (
            WayOut(kind="without_coverage", item="hip+pull"),
            "Do without something for the hips, a hinge and a pull, this once.",
        ),
    ],
)
def test_a_way_out_reads(way: WayOut, words: str) -> None:
    assert told(way) == (words,)


def test_the_price_is_said_only_when_asked_for() -> None:
    assert told(WayOut(kind="no_burst", cost=42), with_price=True) == ("No burst (penalty 42).",)
    assert told(WayOut(kind="no_burst", cost=42)) == ("No burst.",)


def _wish(mass_g: int, *persons: str, worse: int = 0) -> WayOut:
    figures = {"units": 2, "unit_mass_g": mass_g, "worse": worse, "overrun_before_s": 0}
    return WayOut(kind="one_more", item="dumbbell", persons=persons, figures=figures)


def test_what_is_worth_buying_reads_in_one_line() -> None:
    assert shopping_line((), BASE, "kg") == ""
    assert shopping_line(
        (_wish(8000, "p001", "p002"), _wish(6000, "p003", worse=1)), BASE, "kg"
    ) == (
        "One more pair of 8 kg and two people get a better fit;"
        " one more pair of 6 kg and one person gets a better fit, one gets a worse fit."
    )


def test_a_label_of_the_hall_is_used() -> None:
    kit = a_kit({8000: 2})
    labelled = kit.dumbbells[0].model_copy(update={"label": "the blue ones"})
    base = BASE.model_copy(update={"kit": kit.model_copy(update={"dumbbells": (labelled,)})})
    assert shopping_line((_wish(8000, "p001"),), base, "kg").startswith(
        "One more pair of the blue ones"
    )


def test_no_words_speak_of_health() -> None:
    source = Path(clash_lines.__code__.co_filename).read_text("utf-8").lower()
    words = re.findall(r'"([^"]*)"', source)
    for word in ("knee pain", "pregnan", "injur", "condition", "medic", "limitation", "heart"):
        assert not any(word in one for one in words)
