"""From where a position is seen, and how the room becomes a flat picture."""

from dataclasses import dataclass

import numpy as np

from roundwright.body.build import Floats

LOOK_DOWN_DEG = 9.0
"""How far the camera is above level, so that floors and pairs of feet can be told apart."""


@dataclass(frozen=True)
class Camera:
    """A camera far away: 0 degrees sees the left side, 90 the front, 180 the right side."""

    view_deg: float

    @property
    def axes(self) -> Floats:
        """Rows: right in the picture, up in the picture, towards the camera."""
        v, e = np.radians(self.view_deg), np.radians(LOOK_DOWN_DEG)
        s, c = np.sin(v), np.cos(v)
        return np.array(
            [
                [-c, s, 0.0],
                [-s * np.sin(e), -c * np.sin(e), np.cos(e)],
                [s * np.cos(e), c * np.cos(e), np.sin(e)],
            ]
        )

    def seen(self, points: Floats) -> Floats:
        """Give (right, up, near) in m of points in the room, shape (..., 3)."""
        out: Floats = points @ self.axes.T
        return out
