"""What a coach reads of each finding: one sentence and one remedy a rule, and never a reason.

Placeholders: `{who}` people, `{where}` exercises with the round, `{what}` a phrase of
`PHRASES`; others are figures of the finding, shown with their unit.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.foundation import shown
from roundwright.foundation.words import listed, say, shown_units
from roundwright.plan.gate.phrases import PHRASES
from roundwright.plan.verdict import Finding


@dataclass(frozen=True, slots=True)
class RuleWords:
    """The sentence of a rule, and what to do about it."""

    sentence: str
    remedy: str


WORDS: dict[str, RuleWords] = {
    # never
    "child.lifting": RuleWords(
        "{who} would lift dumbbells{where}; in this class {who} lifts nothing.",
        "Choose a version without dumbbells.",
    ),
    "clearance.moderate_only": RuleWords(
        "{who} does light to moderate work only: {what}{where}.",
        "Choose an easier version, no landings, a march for the burst, effort 4 of 10.",
    ),
    "clearance.not_cleared": RuleWords(
        "{who} is in the plan, but needs a clearance first: not today.",
        "Take {who} out of the class and have a quiet word.",
    ),
    "demand.above_cap": RuleWords(
        "{who} must not do this version{where}.", "Choose another version for {who}."
    ),
    "kit.unknown": RuleWords(
        "{who} is given kit that the hall does not have{where}.",
        "Give kit that is on the kit list, or add it there.",
    ),
    "kit.unqualified": RuleWords(
        "{who} has no {kind} fit for this use{where}.",
        "Check sides, rating, height, stability, room and whether it is in use; give another.",
    ),
    "level.too_hard": RuleWords(
        "The version is too hard for {who}{where}.", "Choose an easier version."
    ),
    "load.above_aim": RuleWords(
        "The load is more than {who} should have{where}.", "Choose lighter dumbbells."
    ),
    "load.may_fail": RuleWords(
        "{who} may fail under the load{where}.", "Choose lighter dumbbells or fewer reps."
    ),
    "newcomer.dose": RuleWords(
        "{who} is to be eased in: {what}{where}.",
        "Cut share, rounds, count or burst to what a first class, or one after time away, allows.",
    ),
    "order.after_burst": RuleWords(
        "{who} would do this out of breath, right after a burst{where}.",
        "Put another exercise first, choose an easier version or lengthen the rest.",
    ),
    "order.last_place": RuleWords(
        "{who} would do this last of all, when tired{where}.",
        "Put another exercise last, or end with an easier version.",
    ),
    "plan.malformed": RuleWords(
        "The plan cannot be read as this class: {what}{who_in_brackets}{where}.",
        "Have the plan made again.",
    ),
    "side.unequal": RuleWords(
        "{who} does {left} reps on the left and {right} on the right.",
        "Give both sides the same.",
    ),
    "side.unused": RuleWords(
        "{who} would need a side for this that {who} does not use{where}.",
        "Choose a version for one side, or another exercise.",
    ),
    "version.banned": RuleWords(
        "{who} has a version that you ruled out{where}.", "Choose another, or allow it again."
    ),
    "pieces.forbidden": RuleWords(
        "{who} must not do this in the warm-up or cool-down: {what}.",
        "Choose another version for {who}, or let {who} rest.",
    ),
    # stop
    "contacts.long_set": RuleWords(
        "{who} would land {landings} times in one set{where}; {most} is the most.",
        "Cut the reps of the jump, or take the version without one.",
    ),
    "contacts.cut_short": RuleWords(
        "{who} would do only {number} of a jump{where}, though a version without so many landings "
        "is open.",
        "Choose that version, or keep the jump for {who} on purpose.",
    ),
    "contacts.over_limit": RuleWords(
        "{who} would land {landings} times; {most} is the most.",
        "Choose a version without landings at one exercise, or a march for the burst.",
    ),
    "handovers.not_held": RuleWords(
        "{who} is to hand over what {who} does not hold{where}.", "Have the plan made again."
    ),
    "kit.short": RuleWords(
        "Not enough {thing_short}{where}: {needed} needed, {there} there.",
        "Work in pairs, choose another version for somebody, or bring more.",
    ),
    "load.chance_low": RuleWords(
        "{who} manages the load {chance_bp} of the time only{where}.",
        "Choose lighter dumbbells, an easier version or fewer reps.",
    ),
    "pieces.too_long": RuleWords(
        "The pieces of the {what} take {is_s}; it has {most_s}.",
        "Leave a piece out, or give it more time.",
    ),
    "slot.overrun": RuleWords(
        "The class takes {total_s}; the slot has {slot_s}.",
        "Drop an exercise or a round, or shorten the count; not the warm-up or cool-down.",
    ),
    "space.floor": RuleWords(
        "The room is too small for {people} people{where}: {what}.",
        "Take a larger room, fewer people or exercises that need less floor.",
    ),
    "time.below_floor": RuleWords(
        "Too little time for the {what}: {is_s}; at least {floor_s}.",
        "Give it its time and cut elsewhere.",
    ),
    "timeline.wrong": RuleWords(
        "The running order is not what the work takes, from stretch {stretch} on.",
        "Have the plan made again.",
    ),
    "work_rest.too_little_rest": RuleWords(
        "{who} does light to moderate work only and would rest {rest_s} after {work_s} of work.",
        "Take a pair with at least as much rest as work, or plan the class again.",
    ),
    # advise
    "coverage": RuleWords(
        "This class alone holds {what}: {one} reps and {other}. It is judged over two weeks.",
        "Even it out in the next class, or swap one exercise.",
    ),
    "coverage.two_weeks": RuleWords(
        "With the last two weeks this makes {what}: {one} exercises and {other}.",
        "Swap one exercise for one of the other kind.",
    ),
    "criteria.not_met": RuleWords(
        "{who} tries a version that is usually shown after {classes} classes{where}.",
        "Watch the first reps, or choose the easier version.",
    ),
    "first_timers.many": RuleWords(
        "{number} first-timers; {most} are as many as the coaches can watch.",
        "Ask a second coach, or start some of them next time.",
    ),
    "first_timers.paired": RuleWords(
        "{who} are partners, and it is the first class for both.", "Pair each with a regular."
    ),
    "handovers.wrong": RuleWords(
        "What {who} is to hand over or take{where} does not go with what is done there.",
        "Have the plan made again, or let everyone go to the rack.",
    ),
    "load.assumed": RuleWords(
        "The load of {who} is assumed, not estimated{where}.", "Watch the first reps and adjust."
    ),
    "load.below_aim": RuleWords(
        "{who} may not finish the set{where}.",
        "Have lighter dumbbells or the easier version at hand.",
    ),
    "load.light": RuleWords(
        "{mass_g} is light for {who}{where}; {target_g} would do.",
        "Add a pause, lower slowly, go deeper or take one side at a time.",
    ),
    "load.part_decides": RuleWords(
        "{part} decides the load of {who}{where}: {mass_g}; another part would take {most_g}.",
        "Leave that part out, or do it apart with dumbbells of its own.",
    ),
    "low_hops.over_limit": RuleWords(
        "{who} would skip {hops} times; {most} is what is usual by now.",
        "Skip for half of the burst and march for the rest.",
    ),
    "neighbours.same_muscle": RuleWords(
        "Two in a row tire the same muscle first{where}.", "Put another exercise between."
    ),
    "people.many": RuleWords(
        "{number} people; {most} are as many as the coaches can watch.",
        "Ask another coach, or leave out jumps and what is new.",
    ),
    "screen.unknown": RuleWords(
        "Nothing is known of {who} yet; light to moderate work is planned.",
        "Ask the three questions: heart, chest, faint, breath or a doctor's limit? Pain, an "
        "operation, pregnancy or birth within a year? Active three times a week for three months?",
    ),
    "set.accessories_many": RuleWords(
        "{number} exercises work one muscle or one elbow alone{where}; {most} is usual.",
        "Put an exercise for more of the body in the place of one.",
    ),
    "set.combinations_many": RuleWords(
        "{number} combinations{where}; {most} new ones are enough to teach in a class.",
        "Show one of them part by part, or put a single exercise in its place.",
    ),
    "set.jumping_many": RuleWords(
        "{number} exercises have a jump among their versions{where}; {most} is usual.",
        "Put an exercise without jumps in the place of one.",
    ),
    "set.line_many": RuleWords(
        "{number} exercises hold the same kind of movement, alone or as a part{where}; {most} is "
        "usual.",
        "Put another exercise in the place of one.",
    ),
    "set.lines_twice": RuleWords(
        "The same kind of exercise comes {number} times in a round{where}.",
        "Put another in the place of one.",
    ),
    "set.loaded_few": RuleWords(
        "{number} exercises use dumbbells; {least} or more are usual for a round of this length.",
        "Add a lifted exercise.",
    ),
    "set.pattern_many": RuleWords(
        "{number} exercises move alike{where}; {most} is usual.",
        "Put another kind of movement in the place of one.",
    ),
    "set.pattern_missing": RuleWords(
        "No exercise of the class is {what}.", "Put one in the place of another."
    ),
    "set.versions_twice": RuleWords(
        "Different exercises{where} have a version in common: somebody may do the same twice.",
        "Put another in the place of one.",
    ),
    "sit_out": RuleWords(
        "{who} has nothing to do{where}{what_in_brackets}.",
        "Give something of your own, or let {who} rest.",
    ),
    "slot.chance": RuleWords(
        "The class ends in time {chance_bp} of the time; {asked_bp} is wanted.",
        "Shorten a count or a rest in the main part, or leave a round out.",
    ),
    "slot.no_margin": RuleWords(
        "Only {left_s} is left to register and clear up.", "Shorten something in the main part."
    ),
    "substitute.asks": RuleWords(
        "{who} does another exercise than the group{where}.", "Say yes, or choose another."
    ),
    "substitute.many": RuleWords(
        "{number} exercises are other than the group's{who_in_brackets}; {most} is usual.",
        "Change the exercise for everyone.",
    ),
    "version.level_above": RuleWords(
        "The version is a step up for {who}{where}.", "Watch the first reps."
    ),
    "version.own_level_open": RuleWords(
        "{who} has a step up{where}, though a version at their own level is open.",
        "Choose that version, or keep the step up for {who} on purpose.",
    ),
    "work_rest.longer_work": RuleWords(
        "The work is longer than the chosen {work_s}{where}.",
        "Leave the count out, and it follows the chosen work.",
    ),
    "work_rest.own_short": RuleWords(
        "{who} would work {work_s} and rest {rest_s}{where}: whoever is new, and light to moderate "
        "work, needs at least as much rest as work.",
        "Shorten the work, or lengthen the change.",
    ),
    "work_rest.room": RuleWords(
        "{work_s} of work and {rest_s} of rest were not chosen for this room: {what}.",
        "Plan the class again for those who are there.",
    ),
    "work_rest.short_change": RuleWords(
        "The rest between exercises is {rest_s}; the chosen pair has {least_s}.",
        "Lengthen the change, or plan the class again.",
    ),
    "versions.many": RuleWords(
        "{number} versions{where}; {most} can be shown well.", "Let some do the same version."
    ),
    "warm_up.short_for_eased": RuleWords(
        "The warm-up is {is_s}; with newcomers or people over 65, {better_s} is better.",
        "Lengthen the warm-up.",
    ),
}


class _Filled(dict[str, str]):
    """Figures of a finding as text; what a stored finding lacks is said to be unknown."""

    def __missing__(self, key: str) -> str:
        return say("an unknown number")


def words_of(finding: Finding, names: Mapping[str, str], exercise_names: Mapping[int, str]) -> str:
    """Give a finding in words, with its remedy, in the language that is spoken.

    Parameters
    ----------
    finding : Finding
        Of any rule; an unknown rule is named as such.
    names : mapping
        Shown names by person id; a person without one is named by id.
    exercise_names : mapping
        Shown names of the exercises by position.
    """
    words = WORDS.get(finding.rule)
    if words is None:
        return say("A rule that this version does not know: {rule}.", rule=finding.rule)
    filled = _filled(finding, names, exercise_names)
    text = f"{say(words.sentence)} {say(words.remedy)}".format_map(filled)
    return text if finding.persons else text[0].upper() + text[1:]


def _filled(
    finding: Finding, names: Mapping[str, str], exercise_names: Mapping[int, str]
) -> _Filled:
    who = listed(names.get(p, p) for p in finding.persons)
    phrase = PHRASES.get(str(finding.figures.get("what", "")), "")
    what = say(phrase) if phrase else ""
    figures = {key: _shown(key, value) for key, value in finding.figures.items()}
    thing = str(finding.figures.get("kind", "kit"))
    short = (
        say("{mass} dumbbells", mass=figures["mass_g"])
        if "mass_g" in figures
        else say(_PLURALS.get(thing, f"{thing}s"))
    )
    return _Filled(
        figures
        | {
            "who": who or say("somebody"),
            "who_in_brackets": f" ({who})" if who else "",
            "where": _where(finding, exercise_names),
            "what": what,
            "what_in_brackets": f" ({what})" if what else "",
            "thing_short": short,
        }
    )


def _where(finding: Finding, exercise_names: Mapping[int, str]) -> str:
    places = listed(
        f"{p} ({exercise_names[p]})" if p in exercise_names else str(p) for p in finding.positions
    )
    if places and finding.round:
        return say(" at exercise {places} in round {round}", places=places, round=finding.round)
    if places:
        return say(" at exercise {places}", places=places)
    return say(" in round {round}", round=finding.round) if finding.round else ""


_PLURALS = {"box": "boxes", "bench": "benches", "kit": "kit", "other": "other kit"}
_PLURALS |= {"mat": "mats", "band": "bands", "rope": "ropes", "chair": "chairs"}
"""Kinds of kit as several."""
_ENDINGS = {"_s": shown.clock, "_bp": shown.per_cent}


def _shown(key: str, value: int | str) -> str:
    if key == "kind" or key == "part":
        return say(str(value))
    if isinstance(value, str):
        return value
    if key.endswith("_g"):
        return shown.mass(value, shown_units("kg"))
    return next((show(value) for end, show in _ENDINGS.items() if key.endswith(end)), str(value))
