from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from builder.course import AnyOf
from builder.decide.pathway import (
    cycles,
    feeds,
    is_complete,
    measures_behind,
    misplaced,
    order,
    tables_behind,
)

from .courses import course, table, yes_no


def chain(pathway: tuple[str, ...] = (), **inputs: str):
    tables = [table(name, "first", needs, ("all", {}, "yes")) for name, needs in inputs.items()]
    return course(yes_no("pain"), *tables, pathway=pathway)


def test_tables_come_after_their_inputs_then_by_name():
    assert order(chain(zeta="pain", alpha="zeta", mid="pain")) == ("mid", "zeta", "alpha")


def test_a_valid_pathway_is_kept():
    tables = {"zeta": "pain", "alpha": "zeta", "mid": "pain"}
    assert order(chain(("zeta", "mid", "alpha"), **tables)) == ("zeta", "mid", "alpha")


def test_a_pathway_that_is_wrong_is_not_followed():
    tables = {"zeta": "pain", "alpha": "zeta", "mid": "pain"}
    for wrong in [("alpha", "zeta", "mid"), ("zeta", "alpha"), ("zeta", "mid", "alpha", "nope")]:
        assert order(chain(wrong, **tables)) == ("mid", "zeta", "alpha")
    assert misplaced(chain(("alpha", "zeta", "mid"), **tables)) == (("alpha", "zeta"),)


def test_tables_in_a_circle_are_left_out_and_told():
    found = chain(a="b", b="c pain", c="a", after="c", alone="pain")
    assert order(found) == ("after", "alone")
    assert cycles(found) == (("a", "b", "c"),)


def test_a_table_that_needs_itself_is_a_circle():
    assert cycles(chain(a="a pain")) == (("a",),)
    assert order(chain(a="a pain")) == ()


def test_two_circles_are_two():
    assert cycles(chain(a="b", b="a", c="d", d="c")) == (("a", "b"), ("c", "d"))


def test_a_table_that_stands_before_its_input_or_at_it_is_misplaced():
    tables = {"a": "b", "b": "pain", "c": "c b"}
    assert misplaced(chain(("a", "b", "c"), **tables)) == (("a", "b"), ("c", "c"))
    assert misplaced(chain(("b", "a"), **tables)) == ()
    assert misplaced(chain(("a", "c"), **tables)) == (("c", "c"),), "what is not listed is not misplaced"
    assert misplaced(chain(("nothing", "b", "a"), **tables)) == ()


def test_a_pathway_lists_every_table_exactly_once():
    tables = {"a": "pain", "b": "pain"}
    assert is_complete(chain(("b", "a"), **tables))
    for wrong in [(), ("a",), ("a", "b", "a"), ("a", "b", "c")]:
        assert not is_complete(chain(wrong, **tables)), wrong
    assert order(chain(("b", "a", "b"), **tables)) == ("a", "b")


def test_a_round_is_the_shortest_and_starts_at_its_first_name():
    assert cycles(chain(a="b c", b="c", c="a")) == (("a", "c"),)
    assert cycles(chain(c="b", b="a", a="b c")) == (("a", "b"),)


def test_depth_counts_the_longest_way():
    assert order(chain(a="z y", z="y", y="pain", b="pain")) == ("b", "y", "z", "a")


def test_measures_and_unknown_names_feed_nothing():
    assert feeds(chain(a="pain nothing", b="a a"), "a") == ()
    assert feeds(chain(a="pain nothing", b="a a"), "b") == ("a",)


@given(st.dictionaries(st.sampled_from("abcdefg"), st.sets(st.sampled_from("abcdefg")), min_size=1))
def test_order_and_cycles_share_out_all_tables(graph: dict[str, set[str]]):
    """Every table stands in the order or depends on itself; inputs stand first; cycles are real rounds."""
    found = chain(**{name: " ".join(sorted(needs)) for name, needs in graph.items()})
    listed = order(found)
    for at, name in enumerate(listed):
        for needed in graph[name] & set(listed):
            assert needed in listed[:at]
    for names in cycles(found):
        for name, following in zip(names, (*names[1:], names[0]), strict=True):
            assert following in graph[name]
        assert not set(names) & set(listed)
    reach = {name: needs & set(graph) for name, needs in graph.items()}
    for _ in graph:
        reach = {name: needs.union(*(reach[need] for need in needs)) for name, needs in reach.items()}
    assert set(listed) == {name for name in graph if name not in reach[name]}
    assert bool(cycles(found)) == (set(listed) != set(graph))


def test_the_chain_decides_with_earlier_outcomes():
    first = table("first", "unique", "pain", ("all", {}, "yes"), outcomes="yes no")
    then = table("then", "unique", "first", ("yes", {"first": AnyOf(("yes",))}, "done"))
    assert order(course(yes_no("pain"), then, first)) == ("first", "then")


def test_the_tables_behind_one_start_with_it_and_hold_no_measure() -> None:
    """A name that is a measure's as well stands for the measure."""
    made = course(
        yes_no("p"),
        yes_no("both"),
        table("both", "first", "p", ("all", {}, "x")),
        table("one", "first", "p both", ("all", {}, "x")),
        table("two", "first", "one", ("all", {}, "x")),
    )
    assert tables_behind(made, "two") == ("two", "one")
    assert measures_behind(made, "two") == ("p", "both")
    assert measures_behind(made, "both") == ("p",), "what the table reads, not its namesake"
