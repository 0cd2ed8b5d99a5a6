"""The harness itself: every ability on one small page, in both browsers."""

from __future__ import annotations

from pathlib import Path

import pytest

from .page import until

PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Small page</title>
<meta http-equiv="Content-Security-Policy" content="script-src 'self'; style-src 'self'; default-src 'self'">
<link rel="stylesheet" href="style.css"></head>
<body><main><h1>Small page</h1>
<p id="who">no script</p><noscript><p>without script</p></noscript>
<p hidden>never seen</p>
<form><label>Degrees <input id="degrees" inputmode="decimal"></label>
<fieldset><legend>Ankle</legend><label><input type="radio" name="a" value="stiff"> Stiff</label>
<label><input type="radio" name="a" value="free"> Free</label></fieldset>
<button type="button">Answer</button><button type="button">Other</button>
<label>File <input type="file" id="file"></label></form>
<p role="status" id="said"></p>
<a id="save" download="words.txt">Save the words</a>
<a id="next" href="next.html">Next</a>
</main><script src="page.js"></script></body></html>
"""
SCRIPT = """
document.getElementById('who').textContent = 'with script';
const said = document.getElementById('said');
for (const b of document.querySelectorAll('button')) {
  b.addEventListener('click', e => { said.textContent = b.textContent + ' by ' + e.pointerType; });
}
document.getElementById('file').addEventListener('change', async e => {
  said.textContent = await e.target.files[0].text();
});
document.getElementById('save').href = URL.createObjectURL(new Blob(['saved words']));
"""
STYLE = "main { color: #111; background: #fff }"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("small site")
    (folder / "index.html").write_text(PAGE, encoding="utf-8")
    (folder / "next.html").write_text(PAGE.replace("Small page", "Next page"), encoding="utf-8")
    (folder / "page.js").write_text(SCRIPT, encoding="utf-8")
    (folder / "style.css").write_text(STYLE, encoding="utf-8")
    return folder


def test_opens_files_and_addresses(page, serve, folder):
    page.open(folder / "index.html")
    assert page.url.startswith("file://")
    assert page.text("#who") == "with script"
    page.open(serve(folder) + "index.html")
    assert page.text("#who") == "with script"
    assert "never seen" not in page.text()
    assert page.requests[-3:] == [serve(folder) + name for name in ("index.html", "style.css", "page.js")]
    assert page.trouble == []


def test_values_come_back(page, folder):
    page.open(folder / "index.html")
    assert page.evaluate("[1, 2.5, 'a', true, null, {b: [undefined]}]") == [
        1,
        2.5,
        "a",
        True,
        None,
        {"b": [None]},
    ]
    assert page.evaluate("Promise.resolve(7)") == 7
    assert page.call("(a, b) => a.x + b[0]", {"x": 1}, [2]) == 3
    with pytest.raises(AssertionError, match="not defined"):
        page.evaluate("nothing.at.all")


def test_keys(page, folder):
    page.open(folder / "index.html")
    page.press("Tab")
    assert "degrees" in page.focus
    page.type("112")
    page.press("Backspace", "Tab", "Space", "ArrowDown")
    assert page.evaluate("[degrees.value, document.querySelector(':checked').value]") == ["11", "free"]
    page.press("Tab", "Enter")
    assert page.text("#said").startswith("Answer")
    page.press("Shift+Tab")
    assert 'value="free"' in page.focus


def test_tab_leads_on(page, folder):
    page.open(folder / "index.html")
    page.tab_to("button", text="Other")
    page.press("Enter")
    assert page.text("#said").startswith("Other")
    page.tab_to("#next")
    page.press("Enter")
    page.wait_for("document.title === 'Next page'")
    with pytest.raises(AssertionError, match="does not lead"):
        page.tab_to("#absent", most=12)


def test_what_is_too_wide_is_seen(browser, folder):
    page = browser.page(width=320)
    page.open(folder / "index.html")
    assert page.too_wide == []
    page.evaluate("document.querySelector('h1').textContent = 'x'.repeat(200)")
    page.evaluate("document.querySelector('h1').append(document.createElement('hr'))")
    page.evaluate("document.querySelector('#who').style.width = '500px'")
    assert page.too_wide == ['<p id="who" style="width: 500px;">']


def test_mouse_and_finger(page, folder):
    page.open(folder / "index.html")
    page.click("button", text="Other")
    assert page.text("#said") == "Other by mouse"
    page.tap("button", text="Answer")
    assert page.text("#said") == "Answer by touch"
    page.click("input[value=stiff]")
    assert page.evaluate("document.querySelector(':checked').value") == "stiff"
    with pytest.raises(AssertionError, match="no size"):
        page.click("p[hidden]")
    with pytest.raises(AssertionError, match="nothing matches"):
        page.click("button", text="Absent")


def test_covered_target_is_refused(page, folder):
    page.open(folder / "index.html")
    page.evaluate(
        "document.body.append(document.createElement('dialog')); document.querySelector('dialog').showModal()"
    )
    with pytest.raises(AssertionError, match="covered"):
        page.click("button", text="Other")


def test_navigation_and_waiting(page, folder):
    page.open(folder / "index.html")
    page.click("#next")
    page.wait_for("document.title === 'Next page'")
    page.back()
    page.wait_for("document.title === 'Small page'")
    with pytest.raises(AssertionError, match="in vain"):
        page.wait_for("false", seconds=0.2)


@pytest.mark.parametrize("disk", [True, False])
def test_store_lives_through_reload_and_is_new_for_each_page(browser, serve, folder, disk):
    where = folder / "index.html" if disk else serve(folder) + "index.html"
    page = browser.page()
    page.open(where)
    assert page.evaluate("localStorage.length") == 0
    page.evaluate("localStorage.setItem('a', 'b')")
    page.reload()
    assert page.evaluate("localStorage.getItem('a')") == "b"
    second = browser.page(beside=page)
    second.open(where)
    assert second.evaluate("localStorage.getItem('a')") == "b"
    stranger = browser.page()
    stranger.open(where)
    assert stranger.evaluate("localStorage.length") == 0


def test_views(browser, folder):
    def has(page, feature):
        return page.evaluate(f"matchMedia('({feature})').matches")

    plain = browser.page()
    plain.open(folder / "index.html")
    assert has(plain, "prefers-color-scheme: light")
    assert has(plain, "prefers-reduced-motion: no-preference")
    assert has(plain, "forced-colors: none")
    other = browser.page(width=360, height=640, scheme="dark", motion=False)
    other.open(folder / "index.html")
    assert other.evaluate("[innerWidth, innerHeight]") == [360, 640]
    assert has(other, "prefers-color-scheme: dark")
    assert has(other, "prefers-reduced-motion: reduce")
    other.size(1024, 700)
    assert other.evaluate("innerWidth") == 1024
    forced = browser.page(forced_colors=True)
    forced.open(folder / "index.html")
    assert has(forced, "forced-colors: active")


def test_script_off(browser, serve, folder):
    page = browser.page(script=False)
    for where in (folder / "index.html", serve(folder) + "index.html"):
        page.open(where)
        assert page.text("#who") == "no script"
        assert "without script" in page.text()
        page.click("input[value=free]")
        assert page.evaluate("document.querySelector(':checked').value") == "free"
    page.click("#next")
    page.wait_for("document.title === 'Next page'")


def test_pictures_and_print(browser, folder, tmp_path):
    page = browser.page(width=360, height=300)
    page.open(folder / "index.html")
    page.screenshot(tmp_path / "page.png", whole=False)
    data = (tmp_path / "page.png").read_bytes()
    assert data.startswith(b"\x89PNG")
    assert (int.from_bytes(data[16:20]), int.from_bytes(data[20:24])) == (360, 300)
    page.pdf(tmp_path / "page.pdf")
    assert (tmp_path / "page.pdf").read_bytes().startswith(b"%PDF")


def test_errors_violations_and_foreign_requests_are_seen(page, serve, folder):
    page.open(serve(folder) + "index.html")
    page.evaluate("setTimeout(() => nowhere(), 0); console.error('told'); 0")
    for told in ("nowhere", "told"):
        assert until(lambda told=told: [e for e in page.errors if told in e])
    page.evaluate("document.body.setAttribute('onclick', 'x()'); document.body.click(); 0")
    page.evaluate(
        "document.body.append(Object.assign(new Image(), {src: 'https://invalid.example/x.png'})); 0"
    )
    page.evaluate("document.body.append(Object.assign(new Image(), {src: 'absent.png'})); 0")
    assert until(lambda: [v for v in page.violations if v.startswith("script-src-attr")])
    assert until(lambda: [v for v in page.violations if "invalid.example" in v])
    assert until(lambda: [f for f in page.failures if f.startswith("404") and "absent.png" in f])


def test_a_foreign_request_is_seen(page, serve, tmp_path):
    (tmp_path / "index.html").write_text(
        "<!doctype html><title>a</title><img src='http://invalid.example/x.png' alt=''>", encoding="utf-8"
    )
    page.open(serve(tmp_path) + "index.html")
    assert page.foreign == ["http://invalid.example/x.png"]


def test_dialog_is_accepted(page, folder):
    page.open(folder / "index.html")
    page.evaluate("setTimeout(() => { said.textContent = confirm('Forget it all?') }, 0); 0")
    page.wait_for("said.textContent === 'true'")
    assert page.dialogs == ["Forget it all?"]


def test_files_in_and_out(page, folder, tmp_path):
    page.open(folder / "index.html")
    (tmp_path / "in.txt").write_text("words from a file", encoding="utf-8")
    page.choose_file("#file", tmp_path / "in.txt")
    page.wait_for("said.textContent === 'words from a file'")
    page.click("#save")
    file = page.downloads / "words.txt"
    assert until(lambda: file.exists() and file.read_text("utf-8")) == "saved words"


def test_axe_finds_faults_and_only_those(page, axe, folder):
    page.open(folder / "index.html")
    assert axe(page) == []
    page.evaluate("document.body.append(new Image()); document.querySelector('main').style.color = '#eee'; 0")
    found = {line.split(":")[0] for line in axe(page)}
    assert {"image-alt", "color-contrast"} <= found
