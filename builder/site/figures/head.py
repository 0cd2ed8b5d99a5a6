"""A head seen from the side, looking to the front of the body: skull, face, hair, ear and eye.

Points are along the neck from its base, and towards the face.
"""

from __future__ import annotations

Away = tuple[float, float]

FACE: list[Away] = [
    (55, -3), (52.5, 7), (46, 13), (41, 14), (38.5, 13.6), (33.2, 19.6), (31, 15.2), (28.6, 16.2), (27, 14.8),
    (24.8, 15.4), (20.5, 14.6), (18, 10), (19.5, 3), (22, -8), (30, -14.5), (40, -17.5), (50, -13.5),
]  # fmt: skip
"""From the crown over the brow, the nose and the chin to the nape."""

HAIR: list[Away] = [
    (56.5, -3), (54, 7), (47.5, 13.4), (46, 8), (43, 2), (39, -1.5), (33, -5), (25, -7), (22.5, -10),
    (30, -16.5), (40.5, -19.5), (51.5, -15),
]  # fmt: skip

EAR: Away = (33.5, -2.5)
EYE: Away = (38.6, 9.4)
