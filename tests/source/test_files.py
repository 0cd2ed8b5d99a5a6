"""The one list of a course's files: regular files inside its folder. All else is refused and never opened."""

from __future__ import annotations

import hashlib
import os
import socket
import unicodedata
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.source import NoCourse, load
from builder.source.folder import contents

Write = Callable[..., Path]
BASE = {
    "course.yml": "course: a\ntitle: A\n",
    "measures.yml": "measures: {a: {label: A, kind: yes_no}}\n",
    "lessons/index.md": "# A\n",
}
CASE = "case: {}\nclient: {{name: N}}\nreadings: {{}}\n"


def refused(course: Path) -> dict[str, str]:
    """File to message, of everything that can be no part of the course."""
    loaded = load(course)
    found = [problem for problem in loaded.problems if problem.code == "file-refused"]
    for problem in found:
        assert (problem.severity, problem.line, problem.column) == ("error", 1, 1)
        assert problem.subject == f"file:{problem.file}"
        assert problem.hint
        assert problem.file not in {*loaded.texts, *loaded.attached, *loaded.lesson_files}
    return {problem.file: problem.message for problem in found}


OUT = "This is a link that leads out of the course folder."
FOLDER = "This is a link to a folder; only links to files are followed."
NOWHERE = "This is a link that leads to no file."
HIDDEN = "This is a link to a hidden file."


@pytest.mark.parametrize(
    ("name", "target", "message"),
    [
        ("link", "/", OUT),
        ("lessons/x.txt", "/dev/zero", OUT),
        ("lessons/x.md", "/etc/hostname", OUT),
        ("cases/x.yml", "../../outside/x.yml", OUT),
        ("tables", "../outside", OUT),
        ("lessons/up", "../..", OUT),
        ("lessons/up", "..", FOLDER),
        ("lessons/round", ".", FOLDER),
        ("lessons/.hidden", ".", FOLDER),
        ("lessons/old.bak", "/", OUT),
        ("lessons/.inner/deep", "/", OUT),
        ("lessons/self.md", "self.md", NOWHERE),
        ("lessons/gone.md", "nowhere.md", NOWHERE),
        ("lessons/key.txt", "../.git/config", HIDDEN),
    ],
)
def test_a_link_leads_only_to_a_file_of_the_course(
    course_folder: Write, name: str, target: str, message: str
) -> None:
    folder = course_folder({**BASE, ".git/config": "token", "../outside/x.yml": CASE.format("secret")})
    (folder / name).parent.mkdir(exist_ok=True)
    (folder / name).symlink_to(target)
    assert refused(folder) == {name: message}
    assert load(folder).course.cases == {}


def test_a_link_to_a_file_of_the_course_is_that_file(course_folder: Write) -> None:
    folder = course_folder(
        {**BASE, "cases/one.yml": CASE.format("one"), "shared/two.yml": CASE.format("two")}
    )
    (folder / "cases" / "two.yml").symlink_to("../shared/two.yml")
    (folder / "lessons" / "again.md").symlink_to("index.md")
    assert refused(folder) == {}
    assert set(load(folder).course.cases) == {"one", "two"}
    assert [lesson.file for lesson in load(folder).course.lessons] == ["lessons/again.md", "lessons/index.md"]


def test_links_that_nobody_follows_are_let_be(course_folder: Write) -> None:
    """An editor marks a file that is open by a link that leads nowhere."""
    folder = course_folder(BASE)
    (folder / "lessons" / ".#index.md").symlink_to("someone@machine.4711")
    assert refused(folder) == {}


@pytest.mark.parametrize(
    "name", ["lessons/pipe.md", "cases/pipe.yml", "lessons/inner/pipe.txt", "lessons", "pipe"]
)
def test_a_pipe_is_refused_and_never_opened(course_folder: Write, name: str) -> None:
    folder = course_folder({name: text for name, text in BASE.items() if "/" not in name})
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    os.mkfifo(folder / name)
    assert refused(folder) == {name: "This is neither a file nor a folder, but a pipe, a device or a socket."}


def test_a_socket_is_refused(course_folder: Write, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = course_folder(BASE)
    monkeypatch.chdir(folder / "lessons")  # the address of a socket must be short
    with socket.socket(socket.AF_UNIX) as bound:
        bound.bind("socket.md")
        assert list(refused(folder)) == ["lessons/socket.md"]


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        (b"\xff.md", "\ufffd.md"),
        (b"\x1b[31mred.md", "\\u001b[31mred.md"),
        (b"a\nb.md", "a\\u000ab.md"),
        ("a\u202egpj.md".encode(), "a\\u202egpj.md"),
        ("a\u200b.md".encode(), "a\\u200b.md"),
        ("a\x9b.md".encode(), "a\\u009b.md"),
    ],
)
def test_a_name_that_cannot_be_shown_is_refused(course_folder: Write, name: bytes, shown: str) -> None:
    folder = course_folder(BASE)
    Path(os.fsdecode(os.fsencode(folder / "lessons") + b"/" + name)).write_text("# A\n")
    assert list(refused(folder)) == [f"lessons/{shown}"]


@pytest.mark.parametrize(
    "name", ["\u0646\u0645\u06cc\u200c\u0634\u0648\u062f.md", "\u0915\u094d\u200d\u0937.md", "a b.md"]
)
def test_a_name_in_any_script_is_fine(course_folder: Write, name: str) -> None:
    folder = course_folder({**BASE, f"lessons/{name}": "# X\n"})
    assert refused(folder) == {}
    assert f"lessons/{name}" in load(folder).lesson_files


def test_folders_nest_within_a_bound(course_folder: Write) -> None:
    folder = course_folder({**BASE, f"lessons/{'a/' * 7}x.md": "# X\n", f"lessons/{'b/' * 8}x.md": "# X\n"})
    assert refused(folder) == {"lessons" + "/b" * 8: "The folders nest more than 8 deep."}


@pytest.mark.parametrize("name", ["cases", "lessons"])
def test_a_folder_that_cannot_be_opened_is_told(
    course_folder: Write, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    folder = course_folder({**BASE, "cases/one.yml": CASE.format("one")})
    scan = os.scandir

    def forbid(path: str) -> object:
        if Path(path).name == name:
            raise PermissionError(path)
        return scan(path)

    monkeypatch.setattr("os.scandir", forbid)
    assert refused(folder) == {name: "This folder cannot be opened."}


def test_a_course_file_that_is_a_link_out_is_said_to_be_one(course_folder: Write, tmp_path: Path) -> None:
    folder = course_folder({**BASE, "../elsewhere.yml": BASE["course.yml"], "course.yml": ""})
    (folder / "course.yml").unlink()
    (folder / "course.yml").symlink_to("../elsewhere.yml")
    with pytest.raises(NoCourse, match="leads out of the course folder"):
        load(folder)


def test_decomposed_names_are_read_as_composed_ones(course_folder: Write) -> None:
    """Some file systems spell the letters of a name in two parts (Unicode's form NFD)."""
    name = "lessons/\u00fcbung.md"
    folder = course_folder({**BASE, unicodedata.normalize("NFD", name): "# X\n"})
    assert [lesson.file for lesson in load(folder).course.lessons] == ["lessons/index.md", name]
    assert list(load(folder).lesson_files) == ["lessons/index.md", name]


@pytest.mark.parametrize("name", ["lessons/X.MD", "lessons/x.markdown", "lessons/x.mkd"])
def test_a_lesson_by_another_ending_is_told(course_folder: Write, name: str) -> None:
    loaded = load(course_folder({**BASE, name: "# X\n"}))
    assert [(one.code, one.file) for one in loaded.problems] == [("file-ignored", name)]
    assert name not in loaded.lesson_files


@pytest.mark.parametrize("content", [b"\x00\x01", "<h1>".encode("utf-16"), b"<\x1b(Bscript>", b"\xff"])
def test_what_cannot_be_looked_through_is_not_published(course_folder: Write, content: bytes) -> None:
    folder = course_folder({**BASE, "lessons/foot.xyz": content, "lessons/foot.png": content})
    told = [(one.code, one.file) for one in load(folder).problems]
    assert told == [("file-refused", "lessons/foot.xyz")]


def known(folder: Path) -> str:
    return hashlib.sha256(b"\0".join(contents(folder))).hexdigest()


@pytest.mark.parametrize(
    "name",
    [
        "course.yml",
        "cases/one.yml",
        "lessons/index.md",
        "lessons/foot.png",
        "lessons/more.md",
        "mkdocs.yml",
        "casess/a",
    ],
)
def test_the_contents_differ_with_any_file_that_counts(course_folder: Write, name: str) -> None:
    folder = course_folder({**BASE, "cases/one.yml": CASE.format("one"), "lessons/foot.png": b"\x89PNG"})
    before = known(folder)
    assert known(folder) == before
    (folder / name).parent.mkdir(exist_ok=True)
    with (folder / name).open("ab") as file:
        file.write(b"\n")
    assert known(folder) != before


def test_the_contents_leave_out_what_nobody_reads(course_folder: Write) -> None:
    folder = course_folder(BASE)
    before = known(folder)
    course_folder(
        {"site/index.html": "x", "lessons/.hidden": "x", "notes.md": "x", ".git/config": "x"}, folder
    )
    assert known(folder) == before


def test_odd_files_do_not_hold_up_the_contents(course_folder: Write) -> None:
    folder = course_folder(BASE)
    (folder / "link").symlink_to("/")
    (folder / "lessons" / "zero.txt").symlink_to("/dev/zero")
    os.mkfifo(folder / "lessons" / "pipe.md")
    assert sum(map(len, contents(folder))) < 2000
