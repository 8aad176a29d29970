"""Whether a movement and its posture agree: kit, dumbbells, heights, and which side works.

A posture knows no movements, so this is where the two are laid beside each other.
"""

from collections.abc import Iterable, Iterator, Mapping

from roundwright.body.anatomy import Limb
from roundwright.body.pose_merge import FullPose, full_pose
from roundwright.body.posture import PROP_OF, Posture
from roundwright.body.posture_words import Hold, Surface
from roundwright.body.solved import HANDS
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.library.movement import Movement
from roundwright.library.movement_says import Found, says
from roundwright.library.vocabulary import KitKind, Laterality

SEEN_KIT = (
    KitKind.BENCH,
    KitKind.BOX,
    KitKind.CHAIR,
    KitKind.WALL,
    KitKind.BAND,
    KitKind.ROPE,
)
"""Kit that a posture shows if and only if the movement asks for it. A mat is asked for when the
posture touches it, but may be asked for without (knees or back may like one)."""
OFF_MIDDLE_M = 0.05


def kit_agrees(movement: Movement, posture: Posture) -> Found:
    """Require bench, box, chair, wall, band and rope in both or in none, and the touched mat."""
    shown, asked = kit_shown(posture), {need.item for need in movement.kit}
    for kind in SEEN_KIT:
        if (kind in shown) != (kind in asked):
            has = "touches or shows it" if kind in shown else "does not touch it"
            expected = f"the kit of the posture, which {has}"
            yield says(movement, ("kit",), kind.value, expected)
    if KitKind.MAT in shown and KitKind.MAT not in asked:
        yield says(movement, ("kit",), "no mat", "a mat, which the posture touches")


def heights_agree(movement: Movement, posture: Posture) -> Found:
    """Require that a bench or box of the posture is within the heights that the movement asks."""
    for need in movement.kit:
        prop = getattr(posture.props, need.item.value, None)
        height = getattr(prop, "height", None)
        if height is None or need.item not in kit_shown(posture):
            continue
        mm = round(1000 * height)
        if not (need.min_height or 0) <= mm <= (need.max_height or mm):
            expected = f"{need.min_height or 0} to {need.max_height or 'any'} mm"
            yield says(movement, ("posture", "props", need.item.value), f"{mm} mm", expected)


def dumbbells_agree(movement: Movement, posture: Posture) -> Found:
    """Require that the posture holds as many dumbbells as the movement needs."""
    held = max(sum(HANDS[pose.hold]) for pose in _poses(posture))
    if held != movement.dumbbells_needed:
        expected = f"{movement.dumbbells_needed}, the dumbbells that the movement needs"
        yield says(movement, ("posture", "hold"), f"{held:g}", expected)


def sides_agree(movement: Movement, posture: Posture) -> Found:
    """Require two unlike sides of a one-sided movement, told for the left.

    A band that pulls from one side makes a movement one-sided though both arms do the same. The
    dumbbell may be in the right hand where the left leg works.
    """
    poses = _poses(posture)
    band = posture.props.band
    from_side = band is not None and band.anchor != "feet" and abs(band.anchor[1]) > OFF_MIDDLE_M
    unlike = from_side or any(not pose.is_symmetric for pose in poses)
    if movement.laterality is not Laterality.BILATERAL and not unlike:
        expected = f"two unlike sides, because it is {movement.laterality.value}"
        yield says(movement, ("posture",), "both sides alike", expected)
    in_the_right = any(pose.hold is Hold.RIGHT for pose in poses)
    if in_the_right and movement.is_one_sided and movement.limb is not Limb.LEG:
        yield says(movement, ("posture", "hold"), "right", "left: the left side works")


RULES = (kit_agrees, heights_agree, dumbbells_agree, sides_agree)


def disagreements(
    movements: Mapping[str, Movement], postures: Mapping[str, Posture]
) -> Iterator[Fault]:
    """Find every movement that its posture contradicts, and every posture of no movement."""
    for slug, posture in postures.items():
        if slug not in movements:
            yield Fault(
                code="name.unknown",
                file="postures",
                field=f"posture.{slug}",
                value=slug,
                expected="the short name of a movement",
                nearest=nearest_names(slug, list(movements)),
            )
            continue
        for rule in RULES:
            for found in rule(movements[slug], posture):
                yield Fault(
                    code=found.code,
                    file="postures",
                    field=".".join((found.kind, found.slug, *(str(step) for step in found.path))),
                    value=found.value,
                    expected=found.expected,
                )


def without_posture(movements: Iterable[str], postures: Mapping[str, Posture]) -> tuple[str, ...]:
    """Give movements without a posture: no picture, and the author's figures alone."""
    return tuple(slug for slug in movements if slug not in postures)


def kit_shown(posture: Posture) -> frozenset[KitKind]:
    """Give the kit that is in a posture's pictures: what is touched, a wall, a band, a rope."""
    shown: set[KitKind] = set()
    for pose in _poses(posture):
        for touch in pose.touch.values():
            if touch.on in PROP_OF:
                shown.add(KitKind(PROP_OF[touch.on]))
            elif touch.on is Surface.MAT:
                shown.add(KitKind.MAT)
        if pose.rope is not None:
            shown.add(KitKind.ROPE)
    if posture.props.band is not None:
        shown.add(KitKind.BAND)
    if posture.props.wall is not None:
        shown.add(KitKind.WALL)
    return frozenset(shown)


def _poses(posture: Posture) -> list[FullPose]:
    return [full_pose(posture, key) for key in posture.key]
