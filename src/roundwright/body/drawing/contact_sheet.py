"""All pictures of many movements on one page, large and as small as on a wall."""

from collections.abc import Mapping
from html import escape

from roundwright.body.drawing.picture import PAPER, frames_of, strip
from roundwright.body.pose_faults import pose_faults
from roundwright.body.solved import SolvedPosture

SMALL_PX = 54
"""Height at which a picture must still be nameable."""


def contact_sheet(solved: Mapping[str, SolvedPosture]) -> str:
    """Give a page (HTML) with each movement's pictures at both sizes and the gates it fails."""
    return (
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>Movements</title>'
        f'<body style="background:{PAPER};font:14px sans-serif;display:flex;flex-wrap:wrap;'
        'gap:12px 24px">'
        + "".join(_movement(i, name, each) for i, (name, each) in enumerate(solved.items()))
        + "</body></html>"
    )


def _movement(number: int, name: str, solved: SolvedPosture) -> str:
    frame = frames_of(solved)[0]
    large, small = "", ""
    for place, text in enumerate(strip(solved)):
        mark = f"p{number}-{place}"
        large += text.replace("<svg ", f'<svg id="{mark}" height="{round(frame.height)}" ', 1)
        width = SMALL_PX * frame.width / frame.height
        # The same picture once more, not written out again: the page stays half as long.
        small += (
            f'<svg height="{SMALL_PX}" width="{width:.0f}" viewBox="0 0 {frame.width:.1f} '
            f'{frame.height:.1f}"><use href="#{mark}" width="{frame.width:.1f}" '
            f'height="{frame.height:.1f}"/></svg>'
        )
    faults = "".join(f"<p>{escape(fault.in_words())}</p>" for fault in pose_faults(solved))
    return f"<section><h2>{escape(name)}</h2>{faults}<div>{large}{small}</div></section>"
