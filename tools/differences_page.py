"""The page on which body model and authors differ: made from the shipped library."""

from roundwright.bootstrap.shipped_bodies import shipped_bodies
from roundwright.bootstrap.shipped_library import authored_catalogue
from roundwright.library.model_demands import DEGREE_FROM_NM_PER_KG
from roundwright.services.model_differences import Difference, agreement, differences

_INTRO = """# Where the body model and the authors differ

Made from the shipped library; `roundwright library differences` prints the same. Held-position
estimates: net static moments at key positions, no speed, no landing. The model may only ask for
**more** than the author, and then its degree holds in plans; everything else stays the author's.
What the bands mean and how they were fitted: [the body model](../explanation/body-model.md).
"""


def _rows(found: list[Difference]) -> list[str]:
    lines = ["| movement | figure | author | model | why |", "|---|---|---|---|---|"]
    lines += [f"| {d.movement} | {d.what} | {d.author} | {d.model} | {d.reason} |" for d in found]
    return [*lines, ""] if found else ["None.", ""]


def differences_page() -> str:
    """Give the whole page."""
    bodies, authored = shipped_bodies(), authored_catalogue().movements
    found = differences(authored, bodies.postures, bodies.table)
    lines = [_INTRO, "## The model asks for more, and holds", ""]
    lines += _rows([d for d in found if d.holds == "model"])
    lines += ["## The author's figure stays", ""]
    lines += _rows([d for d in found if d.holds == "author"])
    lines += ["## How often the degrees agree", ""]
    lines += ["From where the model asks for low, clear and high, N·m per kg of body mass: our"]
    lines += ["choice, fitted on this library, so agreement is no proof of either.", ""]
    lines += ["| demand | from | same | author higher | model higher |", "|---|---|---|---|---|"]
    bands = {demand.value: each for demand, each in DEGREE_FROM_NM_PER_KG.items()}
    for a in agreement(authored, bodies.postures, bodies.table):
        least = " · ".join(f"{v:.2f}" for v in bands[a.demand])
        lines.append(f"| {a.demand} | {least} | {a.same} | {a.author_higher} | {a.model_higher} |")
    return "\n".join(lines)
