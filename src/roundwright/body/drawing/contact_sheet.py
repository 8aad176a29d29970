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
        f'<body style="background:{PAPER};font:14px sans-serif;display:flex;flex-wrap:wrap">'
        + "".join(_movement(name, each) for name, each in solved.items())
        + "</body></html>"
    )


def _movement(name: str, solved: SolvedPosture) -> str:
    height = frames_of(solved)[0].height
    pictures = strip(solved)
    large = "".join(_sized(text, round(height)) for text in pictures)
    small = "".join(_sized(text, SMALL_PX) for text in pictures)
    faults = "".join(f"<p>{escape(fault.in_words())}</p>" for fault in pose_faults(solved))
    return f"<section><h2>{escape(name)}</h2>{faults}<div>{large}{small}</div></section>"


def _sized(svg: str, height_px: int) -> str:
    return svg.replace("<svg ", f'<svg height="{height_px}" ', 1)
