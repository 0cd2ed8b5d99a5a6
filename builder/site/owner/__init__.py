"""Pages for the owner of a gym: what a team's records come to. They are no part of the site.

They stand in a folder of their own, look like the course, run no script, and ask for nothing but their own
style beside them. `report.py` makes the page for a Monday morning and the sheet for a wall, `alike.py` looks
at whether coaches decide alike, `things.py` says what records name, and where the site shows it.
"""

from .report import Report, report_page, wall_page
from .style import LOOK, look

__all__ = ["LOOK", "Report", "look", "report_page", "wall_page"]
