"""A library file to start from: one entry of each kind, with the words to choose from."""

import textwrap
from collections.abc import Iterable
from enum import StrEnum

from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.library.vocabulary import (
    Demand,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)

WIDTH = 100

_TEMPLATE = """\
schema = "roundwright.library/1"

# Your own movements, lines and combinations. Put this file into the folder library/ of your hall,
# change what is yours, and check it: roundwright library check FILE
# Every entry below is a whole example. Lines that begin with # are notes.

[movement.my_heel_raise]
name = "My heel raise"
{patterns}
pattern = "mobility"
{families}
# strength_family = "squat"       only when something is lifted
{lateralities}
laterality = "bilateral"
# 1 first class, 2 a few weeks, 3 regular, 4 strong, 5 expert
level = 1
# planned seconds of one rep, of one side where it is one-sided
seconds_a_rep = 2.0
# landings a rep: one landing on one or both feet is 1
contacts_a_rep = 0
low_hops_a_rep = 0
{items}
{uses}
kit = [{{ item = "chair", use = "support" }}]
floor = {{ length = "2 m", width = "2 m" }}
# seconds to lower, pause and lift
tempo = "1-1-1"

{roles}
{muscles}
# The shares sum to 1.
[movement.my_heel_raise.muscles]
calves = {{ role = "prime_mover", share = 1.0 }}

# What it asks of a joint or an ability: 0 none, 1 low, 2 clear, 3 high. What you leave out counts
# as 0 and lets the movement through to people who must not do it: if in doubt, write the higher.
{demands}
[movement.my_heel_raise.demands]
ankle = 1
balance = 1
ball_of_foot_bend = 1
needs_standing = 1

[movement.my_heel_raise.teaching]
set_up = "Stand behind a chair that cannot slide, both hands on its back."
steps = ["Rise onto the front of both feet.", "Pause.", "Lower slowly."]
start = "Standing tall, heels down."
end = "Standing tall, heels high."
feel = "The calves."
breathing = "Out as you rise, in as you lower."
# two to four
cues = ["Grow tall.", "Lower as if onto eggs."]
# urgency: fix_now, or stop where going on may hurt
faults = [
  {{ fault = "Rolling to the outside.", fix = "Press the big toes down.", urgency = "fix_now" }},
]
watch = "Both hands stay on the chair."

# A line is what a class asks for: versions from easy to hard. Shipped movements may stand in it.
[line.my_heel_raises]
name = "My heel raise"
versions = ["my_heel_raise"]
up = ["Twenty reps with two or more left, two classes running."]
down = ["Pain of three of ten or more."]

# A combination is lines done one after the other with one load throughout.
[combination.my_hinge_heel_raise]
name = "My hinge and heel raise"
parts = [
  {{ line = "hinges", times = 1, side = "both" }},
  {{ line = "my_heel_raises", times = 2, side = "both" }},
]
load = "held"
link_s = 0.7
"""


def library_template() -> str:
    """Give the text of a library file with one entry of each kind.

    Returns
    -------
    str
        TOML that the shipped library accepts as it is; its notes name every word of the
        vocabularies, so that no other page is needed beside it.
    """
    return _TEMPLATE.format(
        patterns=_choice("pattern", Pattern),
        families=_choice("strength_family", StrengthFamily),
        lateralities=_choice("laterality", Laterality),
        items=_choice("item", KitKind),
        uses=_choice("use", KitUse),
        roles=_choice("role", MuscleRole),
        muscles=_choice("muscles", Muscle),
        demands=_choice("demands", Demand),
    )


def _choice(field: str, words: Iterable[StrEnum]) -> str:
    said = f"{field}: " + ", ".join(word.value for word in words)
    return textwrap.fill(said, WIDTH, initial_indent="# ", subsequent_indent="#   ")
