"""What lies beside the lessons: pictures, sound, film and papers go to the site as they are.

Whatever else is published must be plain text, so that it can be looked through for what acts by itself:
drawings (SVG), and files whose ending says nothing.
"""

from __future__ import annotations

import os

INERT = frozenset(
    (
        *(".png", ".jpg", ".jpeg", ".gif", ".webp", ".avif", ".bmp", ".ico", ".tif", ".tiff"),
        *(".mp3", ".m4a", ".aac", ".ogg", ".oga", ".opus", ".wav", ".flac"),
        *(".mp4", ".m4v", ".webm", ".ogv", ".mov", ".vtt", ".srt"),
        *(".pdf", ".epub", ".doc", ".docx", ".odt", ".rtf", ".xls", ".xlsx", ".ods", ".csv", ".tsv"),
        *(".ppt", ".pptx", ".odp", ".txt", ".zip", ".css", ".woff", ".woff2", ".ttf", ".otf"),
    )
)
"""Endings under which no browser runs anything as part of the site (WHATWG, MIME Sniffing: a picture, sound,
film, font, paper or plain text is never taken for a page)."""


def is_inert(name: str) -> bool:
    return os.path.splitext(name)[1].lower() in INERT  # noqa: PTH122
