"""What a movement's figures are is worked out once, and anew for a copy that has others."""

import copy
import pickle

import pytest

from roundwright.body.anatomy import MuscleRole
from roundwright.library.vocabulary import KitKind
from tests.support.plans import the_demo_hall

WORKED_OUT = ("dumbbells_lifted", "dumbbells_needed", "other_kit", "prime_movers")
LIBRARY = the_demo_hall().catalogue.movements
LOADED = next(m for _, m in sorted(LIBRARY.items()) if m.dumbbells_lifted == 2)


def read(movement):
    return [getattr(movement, name) for name in WORKED_OUT]


@pytest.mark.parametrize("deep", [False, True])
def test_a_copy_with_other_kit_and_muscles_is_worked_out_anew(deep):
    before = read(LOADED)
    one = tuple(n.model_copy(update={"units": 1}) for n in LOADED.kit)
    helping = {
        muscle: share.model_copy(update={"role": MuscleRole.STABILISER})
        for muscle, share in LOADED.muscles.items()
    }
    other = LOADED.model_copy(update={"kit": one, "muscles": helping}, deep=deep)
    assert (other.dumbbells_lifted, other.dumbbells_needed, other.prime_movers) == (1, 1, ())
    assert read(LOADED) == before
    bare = LOADED.model_copy(update={"kit": ()}, deep=deep)
    assert (bare.dumbbells_lifted, bare.dumbbells_needed, bare.other_kit) == (0, 0, ())


@pytest.mark.parametrize(
    "again", [copy.copy, copy.deepcopy, lambda m: pickle.loads(pickle.dumps(m))]
)
def test_it_is_still_the_same_movement(again):
    read(LOADED)
    same = again(LOADED)
    assert same == LOADED
    assert same.model_dump() == LOADED.model_dump()
    assert read(same) == read(LOADED)


def test_each_is_what_the_kit_and_muscles_say():
    for movement in LIBRARY.values():
        units = [n for n in movement.kit if n.item is KitKind.DUMBBELL]
        assert movement.dumbbells_needed == min(2, sum(n.units for n in units))
        assert movement.other_kit == tuple(n for n in movement.kit if n not in units)
