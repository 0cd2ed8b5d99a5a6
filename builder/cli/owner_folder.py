"""The folder with the owner's pages."""

from __future__ import annotations

from pathlib import Path

from builder.problems.printable import one_line
from builder.site.owner import LOOK, Report, look, report_page, wall_page

from .manifest import write_manifest
from .place import aside, move_in
from .spreadsheet import decisions, sheet


def write_folder(report: Report, place: Path) -> None:
    """Writes the pages and sheets of a report; what stood there before is replaced as a whole, or stays as it
    was. Raises OSError."""
    course, learners = report.answers.course, report.found.learners
    labels = () if report.named else tuple(one.label for one in report.coaches)
    texts = {
        "index.html": report_page(report),
        "wall.html": wall_page(report),
        LOOK: look(),
        "coaches.csv": sheet(course, learners, labels),
        "decisions.csv": decisions(report.decided, course, report.facts.outcomes),
    }
    with aside(place) as folder:
        try:
            for name, text in texts.items():
                (folder / name).write_bytes(text.encode())
            write_manifest(folder)
            move_in(folder, place)
        except OSError as trouble:
            trouble.filename = str(place)
            trouble.add_note(f"Nothing was written; {one_line(place)} is as it was.")
            raise
