"""A position as a picture file of its own, to stand beside an answer: no angles, no words, its own tones."""

from __future__ import annotations

from builder.course import Position

from .body import figure
from .kinematics import pose
from .trunk import QUIET

_STYLE = (
    "path,circle{fill:none;stroke:#1b2420;stroke-linecap:round;stroke-linejoin:round;stroke-width:2.6}"
    ".ink{stroke-width:5.2}.limb,.skin{fill:#ecdcc8}.shirt{fill:#a9bcb4}.cloth{fill:#5f7a74}"
    ".limb,path.shirt:not(.trunk),path.cloth:not(.pelvis){stroke:none}.hair,.eye{fill:#2a2723}"
    ".ribs{display:none}.floor,.wall{stroke-width:4}.solid{stroke-width:2}.mat{fill:#e6e0d2;stroke:#cfc9bc}"
    ".cushion{fill:#faf8f3}.bench{fill:#e6e0d2}.bench-leg{stroke-width:4}"
)


def draw_picture(position: Position) -> str:
    """SVG for a file. It stands on light paper in the dark too, since it cannot know the page's colours."""
    # No words: they stand beside it.
    drawn = figure(position, pose(position), QUIET).drawing("", "")
    head, rest = str(drawn).split(">", 1)
    head = head.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return f"{head}><style>{_STYLE}</style>{rest}\n"
