"""The committed field reference says what the schemas say."""

from __future__ import annotations

from builder.source.schemas import schemas_dir

from .field_reference import field_reference


def test_the_field_reference_is_fresh() -> None:
    committed = (schemas_dir() / "README.md").read_text("utf-8")
    assert committed == field_reference(), "run .venv/bin/python tests/refresh_fields.py"


def test_it_names_every_kind_of_file() -> None:
    text = field_reference()
    for word in (
        "ankle_dorsiflexion",
        "`blueprint`",
        "`near_cut`",
        "`refer_to`",
        "`pathway`",
        "`spare`",
        "`within`",
    ):
        assert word in text
