"""Pictures side by side in one file: all of one scale, on one floor line."""

import re
from collections.abc import Sequence
from xml.sax.saxutils import escape

from roundwright.body.drawing.shapes import number

GAP = 8.0
_BOX = re.compile(r'viewBox="(\S+) (\S+) (\S+) (\S+)"')


def side_by_side(pictures: Sequence[str], title: str) -> str:
    """Give one picture that holds others in a row.

    Parameters
    ----------
    pictures : sequence of str
        SVG texts as `picture.draw_key` makes them: one scale, the floor at height 0.
    title : str
        What the row is called aloud.
    """
    boxes = [tuple(float(v) for v in _found(svg).groups()) for svg in pictures]
    top = min(box[1] for box in boxes)
    low = max(box[1] + box[3] for box in boxes)
    width = sum(box[2] for box in boxes) + GAP * (len(boxes) - 1)
    x, inside = 0.0, []
    for svg, (_, upper, wide, high) in zip(pictures, boxes, strict=True):
        place = (
            f'x="{number(x)}" y="{number(upper)}" width="{number(wide)}" height="{number(high)}"'
        )
        inside.append(svg.replace("<svg ", f"<svg {place} ", 1))
        x += wide + GAP
    box = f"0 {number(top)} {number(width)} {number(low - top)}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img">'
        f"<title>{escape(title)}</title>" + "".join(inside) + "</svg>"
    )


def _found(svg: str) -> "re.Match[str]":
    found = _BOX.search(svg)
    if found is None:
        raise ValueError("a picture without a viewBox")
    return found
