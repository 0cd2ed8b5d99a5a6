"""Figures: SVG from numbers. Pure functions; classes only, so that the stylesheet alone gives colour."""

from .before_after import draw_before_after
from .body import bends, draw_body, view_label
from .breath import draw_breath
from .picture import draw_picture
from .reading import draw_reading, draw_trials
from .seen import layers, motion, stills, told
from .strip import ScaleLine, Strip, lines_of
from .tree import draw_tree

__all__ = [
    "ScaleLine",
    "Strip",
    "bends",
    "draw_before_after",
    "draw_body",
    "draw_breath",
    "draw_picture",
    "draw_reading",
    "draw_tree",
    "draw_trials",
    "layers",
    "lines_of",
    "motion",
    "stills",
    "told",
    "view_label",
]
