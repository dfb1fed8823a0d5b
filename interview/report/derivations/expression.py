"""A formula as people write it: read from the very function that computes it.

Plain sums are written out: a chain of assignments, cases, one result. What a function
solves or steps through can't be; its data sheet says in a `Formula:` line what is solved.
"""

from __future__ import annotations

import ast
import inspect
import re
import textwrap
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from interview.core.formula import Formula
from interview.core.wiring import laws, quantities

__all__ = ["expression", "opened"]

_SIGNS = {ast.Add: " + ", ast.Sub: " − ", ast.Mult: " · ", ast.Div: " / "}
_RANKS = {ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 2, ast.Pow: 4}
_POWERS = {2.0: "²", 3.0: "³", 4.0: "⁴"}
_COMPARED = {
    **{ast.Gt: " > ", ast.GtE: " ≥ ", ast.Lt: " < ", ast.LtE: " ≤ "},
    **{ast.Eq: " is ", ast.NotEq: " is not ", ast.In: " is any of ", ast.NotIn: " is none of "},
}
_JOINED = {ast.And: " and ", ast.BitAnd: " and ", ast.Or: " or ", ast.BitOr: " or "}
_SAME = ("asarray", "atleast_1d", "float", "floats", "each_animal", "draws_at_least", "shaped_like")
_CALLED = {
    **{"sqrt": "√", "cbrt": "∛", "log": "ln", "log2": "log2", "log10": "log10", "exp": "exp"},
    **{"sin": "sin", "cos": "cos", "tan": "tan", "arctan": "arctan", "arcsin": "arcsin"},
    **{"arccos": "arccos", "abs": "abs", "deg2rad": "radians of ", "sum": "sum of "},
    **{"maximum": "larger of ", "minimum": "smaller of ", "largest": "largest of "},
    **{"min": "smallest of ", "max": "largest of "},
}
_OVER_ANIMALS = ("sum", "min", "max")
_CALL = re.compile(r"\b([a-z]\w+)\(")
_LOOSEST, _SUM, _PRODUCT, _SIGN, _POWER, _WHOLE = range(6)


class _NotPlain(Exception):
    """The function does more than a sum on one line."""


@cache
def expression(formula: Formula) -> str:
    """The formula in symbols, its parts after `where`; "" where nothing says it shortly."""
    if formula.written:
        return formula.written
    try:
        return _read(formula)
    except _NotPlain:
        return ""


def opened(formula: Formula) -> tuple[tuple[str, str], ...]:
    """The single sums that a formula calls, and those that these call: each call and its text."""
    found: dict[str, str] = {}
    waiting = [expression(formula)]
    while waiting:
        for name in _CALL.findall(waiting.pop(0)):
            law = laws().get(name)
            if law is not None and law is not formula and name not in found:
                found[name] = expression(law)
                waiting.append(found[name])
    return tuple((_head(laws()[name]), text) for name, text in found.items() if text)


def _head(law: Formula) -> str:
    return f"{law.name}({', '.join(item.name for item in law.inputs)})"


def _read(formula: Formula) -> str:
    tree = ast.parse(textwrap.dedent(inspect.getsource(formula.function))).body[0]
    assert isinstance(tree, ast.FunctionDef)
    writer = _Writer(formula.function.__globals__)
    *before, result = _steps(tree.body)
    if not isinstance(result, ast.Return) or result.value is None:
        raise _NotPlain
    cases = [writer.case(item) for item in before if isinstance(item, ast.If)]
    wheres = dict(writer.part(item) for item in before if not isinstance(item, ast.If))
    whole = writer.text(result.value)
    if not any(whole in text for text in [*cases, *wheres.values()]):
        whole = wheres.pop(whole, whole)
    tail = "; ".join(f"{name} = {text}" for name, text in wheres.items() if name != text)
    text = ", else ".join([*cases, whole])
    return f"{text}, where {tail}" if tail else text


def _steps(body: list[ast.stmt]) -> Iterator[ast.stmt]:
    """The statements that make the value: no docstring, no refusals, no silenced warnings."""
    for item in body:
        if isinstance(item, ast.Expr) and isinstance(item.value, ast.Constant):
            continue
        if isinstance(item, ast.If) and isinstance(item.body[0], ast.Raise) and not item.orelse:
            continue
        if isinstance(item, ast.With):
            yield from _steps(item.body)
        else:
            yield item


class _Writer:
    """Writes expressions of one module."""

    def __init__(self, module: Mapping[str, Any]) -> None:
        self.module = module
        self.held: list[tuple[str, bool]] = []
        """Conditions that stand around what is written, and whether they hold there."""

    def case(self, item: ast.If) -> str:
        """An early return: its value and when it holds."""
        result = item.body[0]
        if item.orelse or not isinstance(result, ast.Return):
            raise _NotPlain
        return f"{self.text(result.value)} if {self.condition(item.test)}"

    def part(self, item: ast.stmt) -> tuple[str, str]:
        """An assignment as name and text."""
        if isinstance(item, ast.AnnAssign) and item.value is not None:
            target: ast.expr = item.target
        elif isinstance(item, ast.Assign) and len(item.targets) == 1:
            target = item.targets[0]
        else:
            raise _NotPlain
        if not isinstance(target, ast.Name):
            raise _NotPlain
        return target.id, self.text(item.value)

    def text(self, node: ast.expr | None, rank: int = _LOOSEST) -> str:
        """An expression, in brackets where it binds less than `rank`."""
        if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
            return _figure(node.value)
        if isinstance(node, ast.Name):
            return self._name(node.id)
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            return _bracketed(f"−{self.text(node.operand, _SIGN)}", _SIGN, rank)
        if isinstance(node, ast.BinOp) and type(node.op) in _RANKS:
            return self._binary(node, rank)
        if isinstance(node, ast.IfExp):
            return self._choice(node.test, node.body, node.orelse, rank)
        if isinstance(node, ast.Call):
            return self._call(node, rank)
        if isinstance(node, ast.Subscript) and ast.unparse(node.slice) == "()":
            return self.text(node.value, rank)
        if isinstance(node, ast.Attribute) and node.attr in ("pi", "inf"):
            return "π" if node.attr == "pi" else "∞"
        if isinstance(node, ast.Compare):
            return self.condition(node)
        raise _NotPlain

    def condition(self, node: ast.expr) -> str:
        """What is asked before a value is taken."""
        if isinstance(node, ast.BoolOp):
            return _JOINED[type(node.op)].join(self.condition(value) for value in node.values)
        if isinstance(node, ast.BinOp) and type(node.op) in _JOINED:
            joined = _JOINED[type(node.op)]
            return self.condition(node.left) + joined + self.condition(node.right)
        if isinstance(node, ast.Compare) and len(node.ops) == 1:
            left, op, right = node.left, node.ops[0], node.comparators[0]
            if isinstance(op, ast.Is | ast.IsNot):
                return f"{self.text(left)} is {'un' if isinstance(op, ast.Is) else ''}known"
            return self.text(left) + _COMPARED[type(op)] + self._side(right)
        if isinstance(node, ast.Compare):
            raise _NotPlain
        return self.text(node)

    def _side(self, node: ast.expr) -> str:
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            return node.value
        if isinstance(node, ast.Tuple):
            return ", ".join(self._side(item) for item in node.elts)
        value = self.module.get(node.id) if isinstance(node, ast.Name) else None
        return ", ".join(map(str, value)) if isinstance(value, tuple) else self.text(node)

    def _name(self, name: str) -> str:
        value = self.module.get(name, name)
        if isinstance(value, int | float):
            return _figure(value)
        if name.startswith("_"):
            raise _NotPlain
        return name

    def _binary(self, node: ast.BinOp, rank: int) -> str:
        own = _RANKS[type(node.op)]
        if isinstance(node.op, ast.Pow):
            base, power = self.text(node.left, _WHOLE), self._power(node.right)
            return _bracketed(base + power, _POWER, rank)
        right = own + 1 if isinstance(node.op, ast.Sub | ast.Div) else own
        sides = (self.text(node.left, own), self.text(node.right, right))
        return _bracketed(_SIGNS[type(node.op)].join(sides), own, rank)

    def _power(self, node: ast.expr) -> str:
        if isinstance(node, ast.Constant) and node.value in _POWERS:
            return _POWERS[float(str(node.value))]
        return "^" + self.text(node, _WHOLE)

    def _call(self, node: ast.Call, rank: int) -> str:
        called = node.func.attr if isinstance(node.func, ast.Attribute) else ast.unparse(node.func)
        args = node.args[:1] if called in _OVER_ANIMALS else node.args
        if called in _SAME:
            return self.text(args[0], rank)
        if called == "square":
            return _bracketed(self.text(args[0], _WHOLE) + "²", _POWER, rank)
        if called == "power":
            raised = self.text(args[0], _WHOLE) + self._power(args[1])
            return _bracketed(raised, _POWER, rank)
        if called == "where":
            return self._choice(args[0], args[1], args[2], rank)
        if called == "clip":
            value, low, high = (self.text(arg) for arg in args)
            return f"({value}, held from {low} to {high})"
        if called == "first_known":
            return ", or where that is unknown ".join(self.text(arg) for arg in args[1:])
        name = _CALLED.get(called) or (called if called in _names() else "")
        if not name:
            raise _NotPlain
        return f"{name}({', '.join(self.text(arg) for arg in args)})"

    def _choice(self, test: ast.expr, yes: ast.expr, no: ast.expr, rank: int) -> str:
        """One of two values; inside it the same question is not asked again."""
        condition = self.condition(test)
        for asked, holds in self.held:
            if asked == condition:
                return self.text(yes if holds else no, rank)
        texts = []
        for value, holds in ((yes, True), (no, False)):
            self.held.append((condition, holds))
            texts.append(self.text(value))
            self.held.pop()
        return f"({texts[0]} if {condition}, else {texts[1]})"


@cache
def _names() -> frozenset[str]:
    return frozenset({*laws(), *quantities().formulas})


def _bracketed(text: str, own: int, rank: int) -> str:
    return f"({text})" if own < rank else text


def _figure(value: float) -> str:
    return f"{value:.10g}".replace("-", "−")
