"""Whatever an educator's words hold, learners read it as words: nothing of it runs, in walks and quizzes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from .practice import build

WORDS = [
    """<img src=x onerror="window.ran=1">""",
    """</script><script>window.ran=1</script><!--""",
    """"><svg onload=window.ran=1> ' onfocus=window.ran=1 autofocus x='""",
    """[press](javascript:window.ran=1) ![see](https://invalid.example/x.png) {{ 7*7 }} {0}""",
]


def course(folder: Path, words: str) -> Path:
    quoted = json.dumps(words)
    files = {
        "course.yml": f"course: hostile\ntitle: {quoted}\n",
        "measures.yml": f"measures:\n  pain: {{label: {quoted}, kind: yes_no, note: {quoted}}}\n",
        "objectives.yml": f"objectives:\n  aim: {{label: {quoted}}}\n",
        "tables/screen.yml": (
            f"table: screen\nquestion: {quoted}\npolicy: unique\ninputs: [pain]\n"
            f"outcomes: {{stop: {{label: {quoted}}}, start: {{label: {quoted}}}}}\nrules:\n"
            f"  - {{id: a, when: {{pain: true}}, then: stop, because: {quoted}}}\n"
            f"  - {{id: b, when: {{pain: false}}, then: start, because: {quoted}}}\nsource: common-practice\n"
        ),
        "cases/wren.yml": (
            f"case: wren\nclient: {{name: {quoted}, age: 30, about: {quoted}}}\n"
            f"story: {quoted}\nreadings: {{pain: false}}\n"
        ),
        "exercises/visit.yml": (
            f"exercise: visit\ntitle: {quoted}\nabout: {quoted}\ncases: all\nstart: screen\nsteps:\n"
            "  screen: {decide: screen, go: {stop: done, start: next}}\n"
            f"  next: {{ask: {quoted}, objective: aim, choices: ["
            f"{{say: {quoted}, best: true, reply: {quoted}, go: done}}, "
            f"{{say: Other, harm: serious, reply: {quoted}, go: done}}]}}\n"
            f"  done: {{end: {quoted}}}\n"
        ),
        "questions/all.yml": (
            "questions:\n"
            f"  - {{id: q1, kind: one, objective: aim, stem: {quoted}, options: ["
            f"{{text: {quoted}, key: true, why: {quoted}}}, "
            f"{{text: Other, why: {quoted}}}], why: {quoted}, source: common-practice}}\n"
            f"  - {{id: q2, kind: order, objective: aim, stem: {quoted}, items: [{quoted}, Other], "
            f"why: {quoted}, source: common-practice}}\n"
            f"  - {{id: q3, kind: pairs, objective: aim, stem: {quoted}, pairs: [{{left: {quoted}, "
            f"right: {quoted}}}, {{left: Other, right: Another}}], why: {quoted}, source: common-practice}}\n"
            "  - {id: g1, family: decision, table: screen, cases: all, objective: aim}\n"
        ),
        "quizzes/check.yml": (
            f"quiz: check\ntitle: {quoted}\nabout: {quoted}\nblueprint: [{{objective: aim, count: 3}}]\n"
        ),
    }
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


ANSWER = """(() => { const form = document.querySelector('.now form, .screen form');
    form.querySelector('input')?.click();
    for (const select of form.querySelectorAll('select')) select.selectedIndex = 1;
    [...form.querySelectorAll('button')].at(-1).click();
    [...document.querySelectorAll('.now > button, .question > button')].at(-1).click();
})()"""


@pytest.mark.parametrize("words", WORDS)
def test_words_stay_words(page, serve, tmp_path, words):
    site = build(course(tmp_path / "course", words), tmp_path / "site")
    page.open(serve(site) + "clients/wren.html")
    for _ in range(2):
        page.evaluate(ANSWER)
    assert page.count(".ended") == 1
    page.open(serve(site) + "quizzes/check.html")
    for _ in range(3):
        page.evaluate(ANSWER)
    page.click("button", text="Draw new questions")
    page.wait_for("document.querySelector('.progress')")
    for _ in range(3):
        page.evaluate(ANSWER)
    assert page.count(".result") == 1
    assert page.evaluate("window.ran ?? null") is None
    assert (
        page.evaluate(
            "document.querySelectorAll('main [onerror], main [onload], main img, main a[href^=java]').length"
        )
        == 0
    )
    assert page.trouble == []
