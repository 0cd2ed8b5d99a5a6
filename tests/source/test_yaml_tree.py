"""What YAML is read as, what is refused, and that any bytes at all are survived."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from builder.source.bounds import MAX_ALIASED, MAX_BYTES, MAX_DEPTH, MAX_VALUES
from builder.source.marks import Marks
from builder.source.scalars import plain_value
from builder.source.texts import decode
from builder.source.yaml_tree import Node, Tree, parse, read

from .yaml_writing import as_yaml

ANKLE = Path(__file__).parents[1] / "courses" / "ankle"
FILES = sorted(ANKLE.rglob("*.yml"))


def lines_of(text: str) -> list[str]:
    return text.removesuffix("\n").split("\n")


def assert_faults_lie_inside(tree: Tree, text: str) -> None:
    lines = lines_of(text)
    for fault in tree.faults:
        assert 1 <= fault.line <= len(lines)
        assert 1 <= fault.column <= len(lines[fault.line - 1]) + 1


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("true", True),
        ("false", False),
        ("12", 12),
        ("-0.50", Decimal("-0.50")),
        ("null", None),
        ("~", None),
        ("", None),
        *((text, text) for text in ("yes", "no", "on", "off", "True", "FALSE", "2026-06-01", "012", "0x1F")),
        *(
            (text, text)
            for text in ("1_000", "12:30", "1e3", "+1", ".5", "5.", "1,5", "0o7", "1" * 16, "nan")
        ),
    ],
)
def test_only_true_false_and_plain_decimals_are_more_than_text(text: str, value: object) -> None:
    assert plain_value(text) == value
    assert type(plain_value(text)) is type(value)


def test_a_decimal_keeps_its_digits() -> None:
    assert str(parse("version: 1.10\n").value["version"]) == "1.10"  # type: ignore[index, call-overload]


def test_quoted_words_are_text() -> None:
    assert parse("- 'true'\n- \"12\"\n- |\n  5\n- ''\n").value == ["true", "12", "5\n", ""]


def test_a_byte_order_mark_and_windows_line_ends_are_accepted() -> None:
    tree = read("a: é\r\nb:\r\n  - 1\r\n".encode("utf-8-sig"))
    assert tree.value == {"a": "é", "b": [1]}
    assert tree.spot.parts["b"].line == 2  # type: ignore[index, call-overload, union-attr]


def test_line_breaks_that_no_editor_shows_stay_characters() -> None:
    tree = parse("a: |\n  one\u2028two\x85three\u2029\nb: 'x\u2028y'\nc: 1\n")
    assert tree.value == {"a": "one\u2028two\x85three\u2029\n", "b": "x\u2028y", "c": 1}
    assert tree.spot.parts["c"].line == 4  # type: ignore[index, call-overload, union-attr]


def test_an_alias_repeats_what_it_names() -> None:
    assert parse("a: &x {k: [1]}\nb: *x\nc: &y z\nd: *y\n").value == {
        "a": {"k": [1]}, "b": {"k": [1]}, "c": "z", "d": "z",
    }  # fmt: skip


def nested(depth: int) -> str:
    return "".join("  " * level + "a:\n" for level in range(depth)) + "  " * depth + "b\n"


def doubling(levels: int) -> str:
    lines = ["a0: &a0 [x, x]"]
    lines += [f"a{level}: &a{level} [*a{level - 1}, *a{level - 1}]" for level in range(1, levels)]
    return "\n".join(lines) + "\n"


def test_aliases_within_the_bound_are_accepted() -> None:
    assert not parse(doubling(8)).faults


@pytest.mark.parametrize(
    ("text", "bound"),
    [
        (doubling(40), f"{MAX_ALIASED:,}"),
        (nested(MAX_DEPTH + 1), f"{MAX_DEPTH} deep"),
        ("[" * 100_000, f"{MAX_DEPTH} deep"),
        ("- " * 100_000, f"{MAX_DEPTH} deep"),
        ("x: [" + "a," * MAX_VALUES + "]", f"{MAX_VALUES:,}"),
        (
            f"a: &a {'[' * (MAX_DEPTH - 2)}{']' * (MAX_DEPTH - 2)}\nb: [[*a]]\n",
            f"{MAX_DEPTH} deep",
        ),
    ],
    ids=["doubling", "keys", "brackets", "dashes", "values", "alias"],
)
def test_a_bound_is_kept_and_named(text: str, bound: str) -> None:
    (fault,) = parse(text).faults
    assert bound in fault.message
    assert_faults_lie_inside(parse(text), text)


def test_nesting_up_to_the_bound_is_accepted() -> None:
    assert not parse(nested(MAX_DEPTH)).faults


def test_a_file_over_the_size_is_refused_and_one_at_it_is_not() -> None:
    assert "2 MB" in read(b"a" * (MAX_BYTES + 1)).faults[0].message
    assert not read(b"a: '" + b"b" * (MAX_BYTES - 6) + b"'\n").faults


@pytest.mark.parametrize(
    ("data", "line", "word"),
    [
        ("a: é\n".encode("utf-16"), 1, "UTF-16"),
        ("a: 1\r\nb: é\r\n".encode("latin-1"), 2, "UTF-8"),
        (b"a: 1\nb: \x00\n", 2, "control"),
        ("a: 1\nb: \x9b\n".encode(), 2, "control"),
        (b'a: "\\ud800"\n', 1, "backslash"),
    ],
)
def test_bytes_that_are_no_text_are_refused_at_their_line(data: bytes, line: int, word: str) -> None:
    (fault,) = read(data).faults
    assert fault.line == line
    assert word in fault.message


@given(st.binary(max_size=300))
def test_any_bytes_are_survived(data: bytes) -> None:
    assert_faults_lie_inside(read(data), decode(data)[0])


SIGNS = st.sampled_from([*"abz019 .,:;-?[]{}#&*!|>'\"%@`~<\\\t\n\r\x00\x85\u2028é☃", "\n  ", ": ", "- "])


@given(st.lists(SIGNS, max_size=60).map("".join))
def test_any_signs_are_survived(text: str) -> None:
    data = text.encode()
    assert_faults_lie_inside(read(data), decode(data)[0])


@given(st.data())
def test_any_change_to_a_good_file_is_survived(data: st.DataObject) -> None:
    good = data.draw(st.sampled_from(FILES)).read_text("utf-8")
    start = data.draw(st.integers(0, len(good)))
    end = min(len(good), start + data.draw(st.integers(0, 12)))
    text = good[:start] + data.draw(st.lists(SIGNS, max_size=6).map("".join)) + good[end:]
    assert_faults_lie_inside(read(text.encode()), decode(text.encode())[0])


VALUES: st.SearchStrategy[Node] = st.recursive(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(-(10**14), 10**14),
        st.decimals(-1000, 1000, places=3),
        st.text(
            st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\ufeff\ufffe\uffff"),
            max_size=9,
        ),
    ),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text("abc-_ :#'", min_size=1), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(VALUES)
def test_what_a_yaml_writer_writes_is_read_back(value: Node) -> None:
    text = as_yaml(value)
    tree = parse(text)
    assert not tree.faults
    assert tree.value == value


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_places_are_those_of_the_reference_composer(path: Path) -> None:
    """Checked against `yaml.compose` of PyYAML, the reference implementation of YAML 1.1 in Python."""
    text = path.read_text("utf-8")
    marks = Marks(text)
    seen = set()

    def compare(node: yaml.Node, place: tuple[str | int, ...], spot: tuple[int, int]) -> None:
        seen.add(place)
        assert marks[place] == spot
        if isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                at = key
                if isinstance(value, yaml.ScalarNode) and value.value and value.style not in ("|", ">"):
                    at = value if value.start_mark.line == key.start_mark.line else key
                compare(value, (*place, key.value), (at.start_mark.line + 1, at.start_mark.column + 1))
                assert marks.spot((*place, key.value)).key_line == key.start_mark.line + 1
        elif isinstance(node, yaml.SequenceNode):
            for index, value in enumerate(node.value):
                compare(value, (*place, index), (value.start_mark.line + 1, value.start_mark.column + 1))

    root = yaml.compose(text, Loader=yaml.SafeLoader)
    compare(root, (), (root.start_mark.line + 1, root.start_mark.column + 1))
    assert seen == set(marks)
    assert len(marks) == len(seen)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_pure_python_reads_the_same(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text = path.read_text("utf-8")
    fast = parse(text), dict(Marks(text))
    monkeypatch.delattr(yaml, "CSafeLoader")
    assert (parse(text).value, dict(Marks(text))) == (fast[0].value, fast[1])


def test_pure_python_survives_what_it_words_otherwise(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(yaml, "CSafeLoader")
    for text in (
        "a: [1",
        'a: "x',
        "a: b: c",
        "a: @x",
        "a:\n  b: 1\n c: 2\n",
        "\ta: 1",
        "- a\nb: c\n",
        "a: *b\n",
    ):
        tree = parse(text)
        assert len(tree.faults) == 1
        assert tree.faults[0].message != "This line cannot be read as YAML."
        assert_faults_lie_inside(tree, text)
