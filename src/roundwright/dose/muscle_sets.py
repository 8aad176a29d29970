"""How much each muscle gets: hard sets by role, and volume by share of the work."""

from collections.abc import Iterable, Mapping

from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.dose.counting import StepReps
from roundwright.foundation.quantities import stored
from roundwright.library.movement import Movement

HARD_SET_RIR = 4
"""A set counts as hard with this many reps left or fewer (our choice, as in weekly counts)."""

HALF_SETS = {MuscleRole.PRIME_MOVER: 2, MuscleRole.HELPER: 1, MuscleRole.STABILISER: 0}
"""Half sets for each role: prime mover a whole set, helper half a set, stabiliser none."""

_NAMES = {muscle: muscle.value for muscle in Muscle}


def half_sets_of_set(reps: Iterable[StepReps], movements: Mapping[str, Movement]) -> dict[str, int]:
    """Give what one set is worth for each muscle, in half sets.

    Parameters
    ----------
    reps : iterable of StepReps
        Reps of the steps of one set, both sides of it if it has two.
    movements : mapping
        Movements of the library by slug.

    Returns
    -------
    dict of str to int
        Muscle to half sets, 1 or 2; muscles that get none are left out.

    Raises
    ------
    KeyError
        When a step names a movement that `movements` does not hold.

    Notes
    -----
    One set of a combination is one set for each muscle, at its greatest role in
    any step: split squat left, split squat right and press are one set for the
    glutes and one for the front delts. Whether a set is hard depends on the reps
    left, `HARD_SET_RIR`, and is judged by the caller.

    References
    ----------
    Direct 1 and indirect 1/2: Pelland 2024, from memory.

    Examples
    --------
    >>> half_sets_of_set((), {})
    {}
    """
    worth: dict[Muscle, int] = {}
    for step in reps:
        if step.reps == 0:
            continue
        for muscle, share in movements[step.movement_id].muscles.items():
            worth[muscle] = max(worth.get(muscle, 0), HALF_SETS[share.role])
    return {name: worth[muscle] for muscle, name in _NAMES.items() if worth.get(muscle)}


def muscle_volume(reps: Iterable[StepReps], movements: Mapping[str, Movement]) -> dict[str, int]:
    """Give reps weighted by each muscle's share of the work.

    Parameters
    ----------
    reps : iterable of StepReps
        Reps of any number of steps and sets.
    movements : mapping
        Movements of the library by slug.

    Returns
    -------
    dict of str to int
        Muscle to reps x share, in 1/100 rep, rounded once; muscles without are left out.

    Raises
    ------
    KeyError
        When a step names a movement that `movements` does not hold.

    Notes
    -----
    Shares of one movement sum to one, so that the volumes of its muscles sum to
    its reps (to within rounding).

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> muscle_volume((), {})
    {}
    """
    volume: dict[Muscle, float] = {}
    for step in reps:
        for muscle, share in movements[step.movement_id].muscles.items():
            volume[muscle] = volume.get(muscle, 0.0) + 100 * share.share * step.reps
    rounded = {name: stored(volume[m]) for m, name in _NAMES.items() if m in volume}
    return {name: value for name, value in rounded.items() if value}
