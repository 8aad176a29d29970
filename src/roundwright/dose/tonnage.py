"""How much was lifted: the load held in each step, and body mass by the share that is lifted."""

from collections.abc import Iterable, Mapping

from roundwright.dose.counting import StepReps
from roundwright.foundation.quantities import BP
from roundwright.library.movement import Movement


def external_tonnage_g(
    reps: Iterable[StepReps], unit_mass_g: int, movements: Mapping[str, Movement]
) -> int:
    """Give the mass of dumbbells lifted over all reps.

    Parameters
    ----------
    reps : iterable of StepReps
        Reps by step.
    unit_mass_g : int
        Mass of one dumbbell, g, >= 0; the same throughout, as the load of a set is.
    movements : mapping
        Movements of the library by slug.

    Returns
    -------
    int
        Grams lifted, >= 0.

    Raises
    ------
    KeyError
        When a step names a movement that `movements` does not hold.

    Notes
    -----
    Sum of unit mass x dumbbells lifted x reps. A dumbbell that is only held under
    the hands is not lifted.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> external_tonnage_g((), 8000, {})
    0
    """
    return sum(
        unit_mass_g * movements[step.movement_id].dumbbells_lifted * step.reps for step in reps
    )


def body_tonnage_g(
    reps: Iterable[StepReps], body_mass_g: int, movements: Mapping[str, Movement]
) -> int:
    """Give the body mass lifted over all reps.

    Parameters
    ----------
    reps : iterable of StepReps
        Reps by step.
    body_mass_g : int
        The person's body mass, g, > 0; where assumed, so is the result.
    movements : mapping
        Movements of the library by slug.

    Returns
    -------
    int
        Grams lifted, >= 0, rounded down once for each step.

    Raises
    ------
    KeyError
        When a step names a movement that `movements` does not hold.

    Notes
    -----
    Sum of body mass x lifted share x reps; the share is the movement's own figure.

    References
    ----------
    Common practice, no source; the shares carry their sources in the library.

    Examples
    --------
    >>> body_tonnage_g((), 70_000, {})
    0
    """
    return sum(
        body_mass_g * movements[step.movement_id].lifted_share_bp * step.reps // BP for step in reps
    )
