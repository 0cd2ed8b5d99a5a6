"""Writes schemas/README.md anew from the schemas.

Usage: .venv/bin/python tests/refresh_fields.py
"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.source.field_reference import field_reference  # noqa: E402

if __name__ == "__main__":
    (ROOT / "schemas" / "README.md").write_text(field_reference(), "utf-8")
