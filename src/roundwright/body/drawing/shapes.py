"""Flat shapes as SVG path data: rounded bars between two circles, and hulls of points."""

from collections.abc import Sequence

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.support_area import hull

Circle = tuple[float, float, float]
"""Centre right and up, and radius, in picture units."""


def number(value: float) -> str:
    """Write a coordinate to a tenth of a unit, as short as may be."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def bar(a: Circle, b: Circle) -> str:
    """Give the outline of two circles and what lies between them."""
    (ax, ay, ar), (bx, by, br) = a, b
    dx, dy = bx - ax, by - ay
    distance = float(np.hypot(dx, dy))
    if distance <= abs(ar - br) + 1e-6:
        x, y, r = a if ar >= br else b
        return disc((x, y, r))
    lean = np.arccos((ar - br) / distance)
    along = np.arctan2(dy, dx)
    one, two = along + lean, along - lean
    points = [
        (ax + ar * np.cos(one), ay + ar * np.sin(one)),
        (bx + br * np.cos(one), by + br * np.sin(one)),
        (bx + br * np.cos(two), by + br * np.sin(two)),
        (ax + ar * np.cos(two), ay + ar * np.sin(two)),
    ]
    p = [f"{number(x)} {number(y)}" for x, y in points]
    large_a = 1 if lean < np.pi / 2 else 0
    large_b = 1 - large_a
    return (
        f"M{p[0]}L{p[1]}A{number(br)} {number(br)} 0 {large_b} 0 {p[2]}"
        f"L{p[3]}A{number(ar)} {number(ar)} 0 {large_a} 0 {p[0]}Z"
    )


def disc(circle: Circle) -> str:
    """Give the outline of a circle."""
    x, y, r = circle
    return (
        f"M{number(x - r)} {number(y)}a{number(r)} {number(r)} 0 1 0 {number(2 * r)} 0"
        f"a{number(r)} {number(r)} 0 1 0 {number(-2 * r)} 0Z"
    )


def polygon(points: Floats | Sequence[Sequence[float]]) -> str:
    """Give the outline through points (k, 2)."""
    rows = [f"{number(float(x))} {number(float(y))}" for x, y in points]
    return "M" + "L".join(rows) + "Z"


def hull_path(points: Floats) -> str:
    """Give the outline of the convex hull of points (k, 2), wound the way bars are."""
    return polygon(points[hull(points)[::-1]])


def circles_hull(circles: Sequence[Circle]) -> str:
    """Give the outline around circles, as a polygon fine enough to look round."""
    turns = np.linspace(0, 2 * np.pi, 20, endpoint=False)
    ring = np.stack([np.cos(turns), np.sin(turns)], axis=1)
    points = np.concatenate([np.array([x, y]) + r * ring for x, y, r in circles])
    return hull_path(points)
