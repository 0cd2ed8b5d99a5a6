"""Which mkdocs.yml is known to let a build read nothing but the course."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.cli.settings import reads_the_course_alone

PLAIN = {
    "site_name": "x",
    "docs_dir": "lessons",
    "theme": "casetrue",
    "plugins": "\n  - search\n  - casetrue",
}


def known(tmp_path: Path, text: str) -> bool:
    file = tmp_path / "mkdocs.yml"
    file.write_text(text, "utf-8")
    return reads_the_course_alone(file)


def text(**settings: str) -> str:
    return "".join(f"{name}: {value}\n" for name, value in {**PLAIN, **settings}.items())


@pytest.mark.parametrize(
    "settings",
    [
        {},
        {"theme": "material"},
        {"theme": "{name: material, palette: {scheme: slate}}"},
        {"plugins": "[casetrue]"},
        {"plugins": "[search: {lang: [en, de]}, casetrue: {}]"},
        {"plugins": "{search: {separator: ' '}, casetrue: }"},
        {"markdown_extensions": "[admonition, toc: {permalink: true}]"},
        {"nav": "[index.md, {More: more.md}]", "copyright": "Us", "site_url": "https://example.org/"},
    ],
)
def test_plain_settings_are_known(tmp_path: Path, settings: dict[str, str]) -> None:
    assert known(tmp_path, text(**settings))


@pytest.mark.parametrize(
    "settings",
    [
        {"plugins": "[casetrue, another]"},
        {"plugins": "[casetrue: {course: ../elsewhere}]"},
        {"plugins": "[casetrue, search: {prebuild_index: node}]"},
        {"plugins": "casetrue"},
        {"plugins": "[casetrue, [search]]"},
        {"plugins": "[casetrue, 1]"},
        {"hooks": "[hook.py]"},
        {"INHERIT": "../base.yml"},
        {"theme": "{name: casetrue, custom_dir: overrides}"},
        {"theme": "another"},
        {"theme": "[casetrue]"},
        {"theme": "&theme {name: *theme}"},
        {"docs_dir": "../elsewhere"},
        {"docs_dir": ".hidden"},
        {"docs_dir": "!ENV LESSONS"},
        {"site_name": "!ENV [NAME, x]"},
        {"extra_templates": "[../secret.html]"},
        {"exclude_docs": "'!.hidden'"},
        {"markdown_extensions": "[pymdownx.snippets]"},
        {"markdown_extensions": "[toc: {slugify: !!python/name:os.system }]"},
        {"extra": "!!python/object/apply:os.system [true]"},
        {"site_name": "["},
        {"site_name": "2001-99-99"},
    ],
)
def test_what_may_read_or_run_more_is_not(tmp_path: Path, settings: dict[str, str]) -> None:
    assert not known(tmp_path, text(**settings))


@pytest.mark.parametrize("whole", ["", "- a\n", "a\n", "[" * 20000, "\x00"])
def test_what_are_no_settings_is_not(tmp_path: Path, whole: str) -> None:
    assert not known(tmp_path, whole)


def test_the_demo_is_known() -> None:
    assert reads_the_course_alone(Path(__file__).parents[2] / "course_src" / "mkdocs.yml")
