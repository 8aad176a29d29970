"""The area that supports span on the floor, and how far inside it a centre of mass is."""

from dataclasses import dataclass

import numpy as np

from roundwright.body.build import Floats


@dataclass(frozen=True)
class EdgeGaps:
    """For each body two edges of its area: how far the centre is short of being well inside."""

    short_m: Floats
    """Shape (n, 2): zero or negative, m."""
    normals: Floats
    """Shape (n, 2, 2): inward unit normals."""
    shares: Floats
    """Shape (n, 2, points): which points the edge is made of at the place nearest the centre."""


def hull(points: Floats) -> list[int]:
    """Give the corners of the convex hull of points (k, 2), anticlockwise, by index."""
    order = sorted(range(len(points)), key=lambda i: (points[i, 0], points[i, 1]))

    def half(row: list[int]) -> list[int]:
        kept: list[int] = []
        for i in row:
            while len(kept) >= 2 and _turn(points[kept[-2]], points[kept[-1]], points[i]) <= 1e-12:
                kept.pop()
            kept.append(i)
        return kept[:-1]

    return half(order) + half(order[::-1])


def _turn(a: Floats, b: Floats, c: Floats) -> float:
    return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))


def outside_m(points: Floats, centre: Floats) -> float:
    """Give how far a centre (2,) is outside the area of points (k, 2); 0 when inside, m."""
    corners = hull(points)
    ends = [(points[c], points[corners[(i + 1) % len(corners)]]) for i, c in enumerate(corners)]
    if len(corners) >= 3 and all(_turn(a, b, centre) >= 0 for a, b in ends):
        return 0.0
    if not ends:
        return float(np.linalg.norm(points[0] - centre))
    return min(_distance(a, b, centre) for a, b in ends)


def _distance(a: Floats, b: Floats, p: Floats) -> float:
    along = b - a
    length = float(along @ along)
    part = min(1.0, max(0.0, float((p - a) @ along) / length)) if length > 0 else 0.0
    return float(np.linalg.norm(p - a - part * along))


def edge_gaps(points: Floats, centres: Floats, margins: Floats) -> EdgeGaps:
    """Give the two nearest edges of each body's area.

    Parameters
    ----------
    points : array
        Shape (n, k, 2): what carries weight, seen from above.
    centres : array
        Shape (n, 2): centres of mass.
    margins : array
        Shape (n,): how far inside is well inside, m; less where the area is narrow.
    """
    n, k = points.shape[:2]
    short, normals, shares = np.zeros((n, 2)), np.zeros((n, 2, 2)), np.zeros((n, 2, k))
    for body in range(n):
        p, c = points[body], centres[body]
        corners = hull(p)
        middle = p[corners].mean(axis=0)
        rows = [_edge(p, i, corners[(j + 1) % len(corners)], c) for j, i in enumerate(corners)]
        room = min((float(r[1] @ (middle - p[r[2]])) for r in rows), default=0.0)
        if len(corners) < 3 or room < 0.004:
            short[body] = -np.abs(c - middle)
            normals[body] = np.diag(-np.sign(c - middle))
            shares[body][:, corners] = 1 / len(corners)
            continue
        margin = min(float(margins[body]), 0.5 * room)
        rows.sort(key=lambda r: r[0])
        for place, (gap, normal, i, j, part) in enumerate(rows[:2]):
            short[body, place] = min(0.0, gap - margin)
            normals[body, place] = normal
            shares[body, place, i] += 1 - part
            shares[body, place, j] += part
    return EdgeGaps(short, normals, shares)


def _edge(points: Floats, i: int, j: int, c: Floats) -> tuple[float, Floats, int, int, float]:
    """Give gap inwards, inward normal, ends and place along an edge of a hull."""
    along = points[j] - points[i]
    length = float(np.linalg.norm(along)) or 1e-9
    normal = np.array([-along[1], along[0]]) / length
    part = float(np.clip((c - points[i]) @ along / length**2, 0, 1))
    return float(normal @ (c - points[i])), normal, i, j, part
