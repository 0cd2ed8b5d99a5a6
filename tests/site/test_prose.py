"""Prose from YAML never becomes markup beyond CommonMark's own, and leads nowhere unsafe."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import html

from builder.site import prose

ELEMENTS = {
    "a", "blockquote", "br", "code", "div", "em", "h2", "h3", "h4", "h5", "h6", "hr", "img", "li", "ol", "p",
    "pre", "strong", "table", "tbody", "td", "th", "thead", "tr", "ul",
}  # fmt: skip
ATTRIBUTES = {"alt", "class", "href", "rel", "src", "start", "title"}

HOSTILE = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "<svg/onload=alert(1)>",
    "<details open ontoggle=alert(1)>",
    "<a href=javascript:alert(1)>x</a>",
    "</main></body><script src=//evil.example></script>",
    "<!--><script>alert(1)</script>-->",
    "<style>*{display:none}</style>",
    "<iframe srcdoc='<script>alert(1)</script>'>",
    "<math><mi//xlink:href='data:x,<script>alert(1)</script>'>",
    "[x](javascript:alert(1))",
    "[x](JaVaScRiPt:alert(1))",
    "[x](java\tscript:alert(1))",
    "[x](&#106;avascript:alert(1))",
    "[x](&#x6A;avascript&colon;alert(1))",
    "[x](\x01javascript:alert(1))",
    "[x](<java\u00a0script:alert(1)>)",
    "[x](vbscript:msgbox(1))",
    "[x](data:text/html,<script>alert(1)</script>)",
    "[x](data:image/svg+xml;base64,PHN2Zz4=)",
    "[x](file:///etc/passwd)",
    "[x](//evil.example/a)",
    "[x](\\\\evil.example\\a)",
    "[x](/\\evil.example)",
    "[x](../../evil.html)",
    "[x](http:javascript:alert(1) 'a\" onmouseover=\"alert(1)')",
    "![x](https://evil.example/pixel.png)",
    "![x](data:image/svg+xml,<svg onload=alert(1)>)",
    '![x" onerror="alert(1)](a.png)',
    '<https://ok.example/"onmouseover=alert(1)>',
    "<javascript:alert(1)>",
    "[x]: javascript:alert(1)\n\n[x]",
    "`<script>`",
    '```"><script>alert(1)</script>\ncode\n```',
    "| a | b |\n|:-:|--:|\n| <b> | [x](javascript:1) |",
    "# <script>\n\n###### deep",
    "{{ 7 * 7 }} {% raw %}",
    "casetrue-mark-body casetrue-mark-title",
    "\u202e\u2066<b>\u0000",
]


def nowhere(address: str) -> None:
    """No relative page exists."""


def assert_harmless(rendered: str) -> None:
    # lxml takes no control characters; in HTML they are characters without meaning.
    shown = "".join(one for one in rendered if one >= " " or one == "\n")
    body = html.fragment_fromstring(shown, create_parent="div")
    for element in body.iter():
        assert element.tag in ELEMENTS
        assert set(element.attrib) <= ATTRIBUTES
        if element.tag == "a":
            assert element.get("href", "").lower().startswith(("http:", "https:", "mailto:"))
        assert element.get("src") is None


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_prose_is_harmless(text: str) -> None:
    assert_harmless(prose.blocks(text, nowhere))
    assert_harmless(prose.line(text, nowhere))


@given(
    st.lists(
        st.sampled_from([*HOSTILE, "\n\n", " ", "*", "[", "](", ")", "<", ">", '"', "'", "&", "`", "|"]),
        max_size=8,
    )
)
def test_mixtures_are_harmless(parts: list[str]) -> None:
    assert_harmless(prose.blocks("".join(parts), nowhere))


@given(st.text(max_size=200))
def test_any_text_is_harmless(text: str) -> None:
    assert_harmless(prose.blocks(text, nowhere))
    prose.plain(text)


def test_html_appears_as_text() -> None:
    assert prose.blocks("a <b>b</b>", nowhere) == "<p>a &lt;b&gt;b&lt;/b&gt;</p>"


def test_an_unsafe_link_becomes_its_text() -> None:
    assert prose.blocks("see [this *now*](javascript:x)", nowhere) == "<p>see this <em>now</em></p>"


def test_a_foreign_picture_becomes_its_text() -> None:
    assert prose.blocks("![a knee](https://other.example/knee.png)", nowhere) == "<p>a knee</p>"


def test_a_link_to_a_lesson_is_resolved() -> None:
    lesson = {"lessons/knee.md#how": "../knee.html#how"}
    assert prose.line("[how](lessons/knee.md#how)", lesson.get) == '<a href="../knee.html#how">how</a>'


def test_headings_start_below_the_pages_own() -> None:
    assert prose.blocks("# a\n\n###### b", nowhere) == "<h2>a</h2>\n<h6>b</h6>"


def test_alignment_is_told_by_class() -> None:
    table = prose.blocks("| a | b |\n|:-:|--:|\n| 1 | 2 |", nowhere)
    assert '<th class="to-center">a</th>' in table
    assert '<td class="to-right">2</td>' in table
    assert "style" not in table


def test_plain_words_of_prose() -> None:
    assert prose.plain("# One\n\ntwo *three*\nfour\n\n- `five`") == "One two three four five"


def all_ways(text: str) -> tuple[str, ...]:
    return prose.blocks(text, nowhere), prose.line(text, nowhere), prose.plain(text)


MARKS = "ab Zé1.,:;-+=#>|~!?()\n\n\"'_*`[]<&\\\t\u00a0\u2028\x00"


@given(
    st.one_of(
        st.text(st.sampled_from(MARKS), max_size=40),
        st.lists(st.sampled_from(["One", "two.", "3", "-", "=", "\n", "\n\n", '"x"', ":"])).map(" ".join),
        st.lists(st.from_regex(r"[a-c][ -~]{0,9}", fullmatch=True)).map("\n".join),
    )
)
def test_text_without_marks_is_read_as_the_parser_reads_it(text: str) -> None:
    quick = all_ways(text)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(prose, "_UNMARKED", re.compile("(?!)"))
        assert quick == all_ways(text)
