"""Every small change of behaviour that a test of a module ought to notice.

The operators are the five that Offutt, Lee, Rothermel, Untch and Zapf found to be enough ("An experimental
determination of sufficient mutant operators", ACM TOSEM 1996;5(2):99-118, remembered): comparisons, logic,
arithmetic, signs, and constants in place of absolute values; besides, statements left out, and a few builtins
of Python that have an opposite.

Nothing is changed that is no behaviour: docstrings, types, imports, decorators, assertions, wording.
"""

from __future__ import annotations

import ast
import copy
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
ARITHMETIC: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.FloorDiv,
    ast.Pow: ast.Mult,
    ast.LShift: ast.RShift,
    ast.RShift: ast.LShift,
    ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd,
    ast.BitXor: ast.BitAnd,
}
TYPES = {"dict", "frozenset", "int", "list", "range", "set", "str", "tuple", "type"}
OPPOSITES = {
    "min": "max",
    "max": "min",
    "any": "all",
    "all": "any",
    "floor": "ceil",
    "ceil": "floor",
    "sorted": "list",
    "reversed": "list",
}


@dataclass(frozen=True, slots=True)
class Mutant:
    file: Path
    line: int
    function: str
    """The function or method that it stands in, as Python qualifies its name; empty outside of any."""
    written: str
    """The line as it stands, without its indent."""
    was: str
    now: str
    statement: Callable[[], ast.stmt]
    """The statement of the module with the change in it."""


def mutants_of(file: Path) -> Iterator[Mutant]:
    """Every mutant of a module, in the order of its text."""
    text = file.read_text("utf-8")
    lines = text.splitlines()
    tree = ast.parse(text)
    for statement in tree.body:
        alone = ast.Module([statement], [])
        for slot, node in _slots(alone):
            for new in _changes(node):
                written = lines[node.lineno - 1].strip()
                whole = _Changed(alone, slot, node, new)
                function = _function(statement, node.lineno)
                yield Mutant(file, node.lineno, function, written, _short(node), _short(new), whole)


def _function(statement: ast.stmt, line: int) -> str:
    if isinstance(statement, ast.FunctionDef):
        return statement.name
    if isinstance(statement, ast.ClassDef):
        for part in statement.body:
            if isinstance(part, ast.FunctionDef) and part.lineno <= line <= (part.end_lineno or 0):
                return f"{statement.name}.{part.name}"
    return ""


@dataclass(frozen=True, slots=True)
class _Slot:
    """Where a node stands in its parent."""

    parent: ast.AST
    field: str
    place: int | None

    def put(self, node: ast.AST) -> None:
        if self.place is None:
            setattr(self.parent, self.field, node)
        else:
            getattr(self.parent, self.field)[self.place] = node


@dataclass(frozen=True, slots=True)
class _Changed:
    alone: ast.Module
    slot: _Slot
    old: ast.AST
    new: ast.AST

    def __call__(self) -> ast.stmt:
        self.slot.put(self.new)
        try:
            return copy.deepcopy(ast.fix_missing_locations(self.alone).body[0])
        finally:
            self.slot.put(self.old)


def _slots(parent: ast.AST) -> Iterator[tuple[_Slot, ast.stmt | ast.expr]]:
    """All statements and expressions that are behaviour, with their places."""
    for field, value in ast.iter_fields(parent):
        if _is_no_behaviour(parent, field):
            continue
        several = value if isinstance(value, list) else [value]
        for place, node in enumerate(several):
            if not isinstance(node, ast.AST) or _is_left_out(node):
                continue
            if isinstance(node, ast.stmt | ast.expr):
                yield _Slot(parent, field, place if isinstance(value, list) else None), node
            yield from _slots(node)


def _is_no_behaviour(parent: ast.AST, field: str) -> bool:
    return (
        field in ("annotation", "returns", "decorator_list", "bases", "type_params", "ctx")
        or (isinstance(parent, ast.Call) and field == "func" and isinstance(parent.func, ast.Name))
        or (isinstance(parent, ast.Subscript) and field == "slice" and _is_type(parent.value))
    )


def _is_left_out(node: ast.AST) -> bool:
    match node:
        case ast.Import() | ast.ImportFrom() | ast.Assert() | ast.Pass():
            return True
        case ast.Expr(value=ast.Constant()):
            return True
        case ast.If(test=ast.Name(id="TYPE_CHECKING")):
            return True
        case ast.Assign(targets=[ast.Name(id="__all__" | "__slots__")]):
            return True
        case ast.Assign(value=value) | ast.AnnAssign(value=value) if value is not None and _is_type(value):
            return True
        case ast.Call(func=ast.Name(id="isinstance" | "TypeVar" | "cast")):
            return True
        case ast.keyword(arg="repr" | "strict"):
            return True
        case ast.MatchClass() | ast.JoinedStr(values=[ast.Constant()]):
            return True
    return False


def _is_type(node: ast.expr) -> bool:
    """Whether an expression is an alias of a type."""
    match node:
        case ast.BinOp(left=left, op=ast.BitOr(), right=right):
            return _is_type(left) or _is_type(right)
        case ast.Subscript(value=value):
            return _is_type(value)
        case ast.Name(id=name):
            return name in TYPES or (name[:1].isupper() and not name.isupper())
    return False


def _changes(node: ast.stmt | ast.expr) -> Iterator[ast.AST]:
    match node:
        case ast.Compare(left=left, ops=ops, comparators=comparators):
            for place, op in enumerate(ops):
                for new in COMPARISONS[type(op)]:
                    yield ast.Compare(left, [*ops[:place], new(), *ops[place + 1 :]], comparators)
        case ast.BoolOp(op=op, values=values):
            yield ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
            for place in range(len(values)):
                rest = [*values[:place], *values[place + 1 :]]
                yield ast.BoolOp(op, rest) if len(rest) > 1 else rest[0]
        case ast.UnaryOp(operand=ast.Constant(value=int() | float())):
            yield node.operand
        case ast.UnaryOp(operand=operand):
            yield operand
        case ast.BinOp(left=left, op=op, right=right):
            yield ast.BinOp(left, ARITHMETIC[type(op)](), right)
        case ast.AugAssign(target=target, op=op, value=value):
            yield ast.AugAssign(target, ARITHMETIC[type(op)](), value)
            yield ast.Pass()
        case ast.Constant(value=bool() as value):
            yield ast.Constant(not value)
        case ast.Constant(value=int() | float() as value):
            yield ast.Constant(value + 1)
            if value:
                yield ast.Constant(value - 1)
        case ast.Call(func=ast.Name(id=name), args=[first, *_]) if name in OPPOSITES:
            if OPPOSITES[name] == "list":
                yield ast.Call(ast.Name("list", ast.Load()), [first], [])
            else:
                yield ast.Call(ast.Name(OPPOSITES[name], ast.Load()), node.args, node.keywords)
        case ast.Call(func=ast.Attribute(value=ast.Name(id="math"), attr=name)) if name in OPPOSITES:
            yield ast.Call(
                ast.Attribute(ast.Name("math", ast.Load()), OPPOSITES[name], ast.Load()),
                node.args,
                node.keywords,
            )
        case ast.IfExp(test=test, body=body, orelse=orelse) if not _is_told(test):
            yield ast.IfExp(_denied(test), body, orelse)
        case ast.If(test=test, body=body, orelse=orelse) if not _is_told(test):
            yield ast.If(_denied(test), body, orelse)
        case ast.While(test=test, body=body, orelse=orelse) if not _is_told(test):
            yield ast.While(_denied(test), body, orelse)
        case ast.Expr() | ast.Raise() | ast.Delete():
            yield ast.Pass()
        case ast.Return(value=value) if value and not isinstance(value, ast.Constant):
            yield ast.Return(ast.Constant(None))
        case ast.Break():
            yield ast.Continue()
        case ast.Continue():
            yield ast.Break()
    if isinstance(node, ast.ListComp | ast.SetComp | ast.GeneratorExp):
        for place, part in enumerate(node.generators):
            for number in range(len(part.ifs)):
                fewer = ast.comprehension(
                    part.target, part.iter, [*part.ifs[:number], *part.ifs[number + 1 :]], part.is_async
                )
                yield type(node)(node.elt, [*node.generators[:place], fewer, *node.generators[place + 1 :]])


def _is_told(test: ast.expr) -> bool:
    """Whether another operator turns this condition round."""
    return (
        (isinstance(test, ast.Compare) and len(test.ops) == 1)
        or (isinstance(test, ast.UnaryOp) and isinstance(test.op, ast.Not))
        or isinstance(test, ast.Constant)
    )


def _denied(test: ast.expr) -> ast.expr:
    return ast.UnaryOp(ast.Not(), test)


def _short(node: ast.AST) -> str:
    first, *more = ast.unparse(ast.fix_missing_locations(node)).splitlines()
    return first + (" ..." if more else "")
