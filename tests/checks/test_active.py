"""What acts by itself is found in lessons and beside them however it is disguised, and nothing else is.

The disguises follow the WHATWG HTML rules for tags and attributes, XML 1.0 for drawings, and what MkDocs and
Python-Markdown take out of a text before they read it.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.checks import check
from builder.checks.active import active, active_drawing
from builder.problems import Problem
from builder.source import load

from ..hostile.values import VALUES

Write = Callable[..., Path]


def told(course: Path) -> list[Problem]:
    return [problem for problem in check(load(course)) if problem.code == "active-content"]


@pytest.mark.parametrize(
    ("written", "line"),
    [
        ("<script>alert(1)</script>", 3),
        ("<SCRIPT\nsrc=x.txt></SCRIPT>", 3),
        ("Words <script/x>alert(1)</script>", 3),
        ("<!--><script>alert(1)</script>", 3),
        ("<!-- a --!><script>alert(1)</script> -->", 3),
        ("<style><!--</style><script>alert(1)</script>-->", 3),
        ("<b title='>' onclick=alert(1)>a</b>", 3),
        ("<b title=\u00a0\" onclick=alert(1) id='\">'>a</b>", 3),
        ("<img src=x\nonerror=alert(1)>", 4),
        ("<svg/onload=alert(1)>", 3),
        ("<svg><animate onbegin=alert(1) /></svg>", 3),
        ("<svg><a><set attributeName=href to=javascript:alert(1) /></a></svg>", 3),
        ("<details open ontoggle=alert(1)>a</details>", 3),
        ("<a href=javascript:alert(1)>a</a>", 3),
        ("<a href='&#x6a;avascript&colon;alert(1)'>a</a>", 3),
        ("<a href='java\tscript:alert(1)'>a</a>", 3),
        ("<a href='vbscript:a'>a</a>", 3),
        ("[a](javascript:alert(1))", 3),
        ("[a](JavaScript:alert(1))", 3),
        ("[a](<javas\ncript:alert(1)>)", 3),
        ("[a](java`s`cript:alert(1))", 3),
        ("[a](java&#115;cript:alert(1))", 3),
        ("[a][b]\n\nWords.\n\n[b]: javascript:alert(1)", 7),
        ("<meta http-equiv=refresh content=0>", 3),
        ("<base href=//elsewhere.example/>", 3),
        ("<link rel=preconnect href=//elsewhere.example>", 3),
        ("<iframe src=x.txt></iframe>", 3),
        ("<object data=x.txt></object>", 3),
        ("<embed src=x.txt>", 3),
        ("<div\n\nonclick=alert(1)>a</div>", 5),
    ],
)
def test_what_acts_in_a_lesson_is_told(small_course: Path, written: str, line: int) -> None:
    (small_course / "lessons" / "more.md").write_text(f"# More\n\n{written}\n", "utf-8")
    problems = told(small_course)
    assert {(one.severity, one.subject, one.line) for one in problems} == {
        ("error", "lesson:lessons/more.md", line)
    }


@pytest.mark.parametrize(
    "text",
    [
        "title: a `\n<img src=x onerror=alert(1)> `\n",  # MkDocs takes the first line for a description
        "---\ntitle: <script>alert(1)</script>\n---\n# A\n",
        "---\nx: |\n  a\n  ```\n---\n<b onclick=alert(1)>a</b>\n\n```\n```\n",
        "---\n---\nx: <script>\n---\n# A\n",
    ],
)
def test_what_acts_in_or_behind_front_matter_is_told(small_course: Path, text: str) -> None:
    (small_course / "lessons" / "more.md").write_text(text, "utf-8")
    assert told(small_course)


@pytest.mark.parametrize(
    "written",
    [
        "`<script>alert(1)</script>` is what a script looks like.",
        "```html\n<script>alert(1)</script>\n<b onclick=x>\n```",
        "    <script>alert(1)</script>",
        "Write &lt;script> or `onclick=`; 3 <4, a<b, once = 1, on time=2.",
        "<b>Bold</b>, <figure><img src='foot.png' alt='on = off' title=on></figure>",
        "<details><summary>More</summary>Words.</details>",
        "<video src='film.mp4' controls></video> <audio src=a.mp3 controls></audio>",
        "[a](https://a.example/?on=1) <https://a.example/onclick=1> [b](mailto:a@a.example)",
        "The description: a. A prescription: b. ![JavaScript: the language](foot.png 'VBScript: another')",
    ],
)
def test_what_does_not_act_is_not_told(small_course: Path, written: str) -> None:
    for name in ("foot.png", "film.mp4", "a.mp3"):
        (small_course / "lessons" / name).write_bytes(b"x")
    (small_course / "lessons" / "more.md").write_text(f"# More\n\n{written}\n", "utf-8")
    assert told(small_course) == []


SVG = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">{}</svg>'


@pytest.mark.parametrize(
    "drawing",
    [
        SVG.format("<script>1</script>"),
        SVG.format("<x:script xmlns:x='http://www.w3.org/2000/svg'>1</x:script>"),
        SVG.format("<_:script xmlns:_='http://www.w3.org/2000/svg'>1</_:script>"),
        SVG.format("<g onload='1'/>"),
        SVG.format("<a xlink:href='javascript:1'/>"),
        SVG.format("<a xlink:href='&#106;avascript:1'/>"),
        SVG.format("<a><animate attributeName='href' values='a;javascript:1'/></a>"),
        SVG.format("<foreignObject><b xmlns='http://www.w3.org/1999/xhtml'/></foreignObject>"),
        SVG.format("<iframe xmlns='http://www.w3.org/1999/xhtml' src='x'/>"),
        "<!DOCTYPE svg [<!ENTITY a '&#60;script>1&#60;/script>'>]>" + SVG.format("&a;"),
        '<?xml version="1.0"?><?xml-stylesheet href="x.txt"?>' + SVG.format(""),
        '<?xml version="1.0" encoding="ISO-2022-JP"?>' + SVG.format(""),
        "<html xmlns='http://www.w3.org/1999/xhtml'><script>1</script></html>",
    ],
)
def test_what_acts_in_a_drawing_is_told(small_course: Path, drawing: str) -> None:
    assert list(active_drawing(drawing))
    (small_course / "lessons" / "foot.svg").write_text(drawing, "utf-8")
    (problem,) = told(small_course)
    assert (problem.severity, problem.file) == ("error", "lessons/foot.svg")


def test_a_plain_drawing_is_not_told(small_course: Path) -> None:
    head = (
        '<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n<!DOCTYPE svg PUBLIC '
        '"-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">\n'
    )
    inner = (
        "<defs><style>.a{fill:red}</style></defs><title>A foot</title><path class='a' d='M0 0h9'/>"
        "<use xlink:href='#a'/><!-- on = off --><text>2 &lt; 3</text>"
    )
    (small_course / "lessons" / "foot.svg").write_text(head + SVG.format(inner), "utf-8")
    assert told(small_course) == []


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("a.js", b"alert(1)"),
        ("a.MJS", b"alert(1)"),
        ("a.html", b"<p>a"),
        ("a.htm", b"<script>1</script>"),
        ("a.xhtml", b"<html/>"),
        ("a.xml", b"<?xml version='1.0'?><a/>"),
        ("a", b"<!doctype html>"),
        ("a.unknown", b"x <script>1</script>"),
        ("a.wasm", b"x"),
    ],
)
def test_a_file_that_acts_is_told(small_course: Path, name: str, content: bytes) -> None:
    (small_course / "lessons" / name).write_bytes(content)
    (problem,) = told(small_course)
    assert (problem.severity, problem.subject) == ("error", f"file:lessons/{name}")
    assert problem.hint


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("foot.png", b"\x89PNG"),
        ("FOOT.JPG", b"\xff\xd8"),
        ("film.mp4", b"\x00"),
        ("paper.pdf", b"%PDF <script>"),
        ("notes.txt", b"<script>"),
        ("more.css", b"p {}"),
        ("CNAME", b"course.example\n"),
        ("dates.ics", b"BEGIN:VCALENDAR\n"),
    ],
)
def test_what_is_looked_at_heard_and_read_is_not_told(small_course: Path, name: str, content: bytes) -> None:
    (small_course / "lessons" / name).write_bytes(content)
    assert [one for one in check(load(small_course)) if one.severity == "error"] == []


@pytest.mark.parametrize(
    ("markup", "acts"),
    [
        ('<b " onclick=a ">', True),
        ("<b a='\"' onclick=a>", True),
        ("<b a=b\tonclick=a>", True),
        ("<b a/onclick=a>", True),
        ("<b a=b/onclick=a>", False),
        ("<b a='onclick=a'>", False),
        ("<b a= 'b'onclick=a>", True),
        ("<b =onclick=a>", False),
        ("<b\u00a0onclick=a>", False),
        ("< b onclick=a>", False),
        ("</b onclick=a>", False),
        ("<b onclick>", True),
        ("<b data-onclick=a once-a=b>", False),
    ],
)
def test_tags_are_read_as_browsers_read_them(markup: str, acts: bool) -> None:
    assert bool(list(active(markup))) == acts


def test_hostile_texts_that_act_are_found() -> None:
    """All that the hostile texts could do as HTML, they do by an element, a handler or an address."""
    acting = [text for text in VALUES if re.search("<script|<[a-z]+ [^>]*onerror", text, re.IGNORECASE)]
    assert len(acting) > 30
    assert [text for text in acting if not list(active(text))] == []


@pytest.mark.parametrize(
    "text", ["<a ", '<a b="', "<a b='", "<", "<!DOCTYPE ", "<?xml ", "<a b=\"<a b='", "<a/"]
)
def test_a_text_of_any_size_is_looked_through(text: str) -> None:
    """Looking at each letter beside each other one would take hours."""
    whole = text * (2_000_000 // len(text))
    for look in (active, active_drawing):
        for number, _ in enumerate(look(whole)):
            if number > 10:
                break
