"""Check that every physical number is described with its unit, and every array with its shape.

Run from the root of the project: ``python tools/check_docstrings.py [folder ...]``. Prints one
line per fault and ends with status 1 when there is any.

A number is what is annotated as float, complex or array. What counts as described:

* a number of a function or method: an entry in its ``Args`` section, with ``[unit]`` (``[-]``
  without dimension), and ``(shape)`` too when the annotation says array; a number as result:
  ``[unit]`` under ``Returns``, or at the end of the summary where that says all;
* a plain number whose name says its unit: SI and one meaning by the nomenclature, or ending in
  the unit; in ``charts`` also places and sizes, which are all in user units;
* a number of a dataclass: a comment ``#: ... [unit]`` behind or above the field;
* a number of an exception: an entry in the docstring of the class;
* a number as property: ``[unit]`` anywhere in its docstring;
* anything else: an entry where its name and type leave something unsaid, and no more;
* a field of a page's context: its ``metadata=helped("...")``, which the page's JSON shows;
* a command: nothing here, its options carry the help a user reads, held by tests/shell.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
UNIT = re.compile(r"\[[^\[\]]+\]")
SHAPE = re.compile(r"\([^()]*\)\s*$")
SAYS_ITS_UNIT = re.compile(
    r"frequency|wavelength|length|earth_radius|latitude|longitude|height|pressure|reference"
    r"|yield_strength|elastic_modulus|\w+_(deg|dbi?|dbm|mhz)"
)
DRAWN = re.compile(rf"[xy][12]?|width|size|room|left|right|top|bottom|{SAYS_ITS_UNIT.pattern}")
NUMBER = re.compile(r"\b(float|complex|NDArray|ArrayLike)\b")
HEADING = re.compile(r"^(Args|Returns|Yields|Raises|Notes):$", re.MULTILINE)

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True, slots=True, kw_only=True)
class Argument:
    """An argument to be described: its name and its annotation as written."""

    name: str
    annotation: str


def sections(docstring: str) -> dict[str, str]:
    """Split a cleaned docstring into its sections; the part before has the name ''."""
    parts = HEADING.split(docstring)
    return {"": parts[0], **dict(zip(parts[1::2], parts[2::2], strict=True))}


def entries(section: str) -> dict[str, str]:
    """Read the entries of an Args section: name to what stands behind it, joined."""
    found: dict[str, list[str]] = {}
    names: list[str] = []
    for line in section.splitlines():
        entry = re.match(r" {4}(\*{0,2}\w+(?:, \*{0,2}\w+)*):(.*)", line)
        if entry:
            names = [name.strip().lstrip("*") for name in entry[1].split(",")]
            found.update({name: [entry[2].strip()] for name in names})
        else:
            for name in names:
                found[name].append(line.strip())
    return {name: " ".join(lines).strip() for name, lines in found.items()}


def entry_faults(
    argument: Argument, described: dict[str, str], says: re.Pattern[str]
) -> Iterator[str]:
    """Say what is missing from one argument's entry."""
    text = described.get(argument.name)
    if not is_number(argument.annotation):
        return
    if not text and argument.annotation == "float" and says.fullmatch(argument.name):
        return
    if not text:
        yield f"{argument.name} is not described"
        return
    if not UNIT.search(text):
        yield f"{argument.name} has no [unit]"
    if is_array(argument.annotation) and not SHAPE.search(text):
        yield f"array {argument.name} has no (shape) at the end of its entry"


def is_number(annotation: str) -> bool:
    """Whether an annotation holds a number that has a unit; a function's own arguments apart."""
    return "Callable" not in annotation and bool(NUMBER.search(annotation))


def is_array(annotation: str) -> bool:
    """Whether an annotation says array."""
    return "NDArray" in annotation or "ArrayLike" in annotation


def written(node: ast.expr | None) -> str:
    """Return an annotation as it is written."""
    return ast.unparse(node) if node is not None else ""


def is_command(function: Function, decorators: set[str]) -> bool:
    """Whether a function is a command: registered as one, or taking a command's own options."""
    listed = (*function.args.args, *function.args.kwonlyargs)
    annotations = {written(node.annotation) for node in listed}
    registered = any(".command(" in decorator for decorator in decorators)
    own = {"options.PlanFile", "options.NewPlanFile", "options.Json"}
    return registered or bool(own & annotations)


def arguments_of(function: Function, *, method: bool) -> list[Argument]:
    """List the arguments of a function that its docstring must describe."""
    spec = function.args
    plain = [*spec.posonlyargs, *spec.args]
    decorators = {written(node) for node in function.decorator_list}
    if method and "staticmethod" not in decorators:
        plain = plain[1:]
    nodes = [*plain, *spec.kwonlyargs]
    nodes += [node for node in (spec.vararg, spec.kwarg) if node is not None]
    found = [Argument(name=node.arg, annotation=written(node.annotation)) for node in nodes]
    return [argument for argument in found if not argument.name.startswith("_")]


def function_faults(function: Function, *, method: bool, says: re.Pattern[str]) -> Iterator[str]:
    """Say what is missing from one function's docstring."""
    docstring = ast.get_docstring(function)
    if docstring is None:
        yield "no docstring"
        return
    decorators = {written(node) for node in function.decorator_list}
    if decorators & {"overload", "override"} or is_command(function, decorators):
        return
    if decorators & {"property", "cached_property"}:
        if is_number(written(function.returns)) and not UNIT.search(docstring):
            yield "property has no [unit]"
        return
    parts = sections(docstring)
    described = entries(parts.get("Args", ""))
    arguments = arguments_of(function, method=method)
    for argument in arguments:
        yield from entry_faults(argument, described, says)
    spare = described.keys() - {argument.name for argument in arguments}
    yield from (f"entry {name} describes no argument" for name in sorted(spare))
    result = written(function.returns)
    answer = parts.get("Returns", parts.get("Yields", parts[""].partition("\n\n")[0].rstrip(".")))
    if is_number(result) and not UNIT.search(answer):
        yield "result has no [unit] under Returns"
    elif is_array(result) and not SHAPE.search(answer.strip().rstrip(".")):
        yield "array result has no (shape) at the end of Returns"


def is_dataclass(node: ast.ClassDef) -> bool:
    """Whether a class is a dataclass."""
    return any(written(decorator).startswith("dataclass") for decorator in node.decorator_list)


def fields_of(node: ast.ClassDef, lines: list[str]) -> tuple[list[Argument], dict[str, str]]:
    """List what is passed to make a dataclass or an exception, and how each is described."""
    if is_dataclass(node):
        items = [
            item
            for item in node.body
            if isinstance(item, ast.AnnAssign)
            and isinstance(item.target, ast.Name)
            and not item.target.id.startswith("_")
            and not written(item.annotation).startswith("ClassVar")
            and "metadata=helped(" not in written(item.value)
        ]
        listed = [
            Argument(name=written(item.target), annotation=written(item.annotation))
            for item in items
        ]
        return listed, {written(item.target): comment_of(item, lines) for item in items}
    makers = [
        item for item in node.body if isinstance(item, ast.FunctionDef) and item.name == "__init__"
    ]
    described = entries(sections(ast.get_docstring(node) or "").get("Args", ""))
    return (arguments_of(makers[0], method=True) if makers else []), described


def comment_of(field: ast.AnnAssign, lines: list[str]) -> str:
    """Join the ``#:`` comments above and behind a field."""
    above = field.lineno - 1
    while above and lines[above - 1].lstrip().startswith("#:"):
        above -= 1
    own = lines[above : field.end_lineno]
    return " ".join(line.partition("#:")[2].strip() for line in own if "#:" in line)


def class_faults(
    node: ast.ClassDef, lines: list[str], says: re.Pattern[str]
) -> Iterator[tuple[ast.AST, str, str]]:
    """Say what is missing from one class and its public methods."""
    docstring = ast.get_docstring(node)
    if docstring is None:
        yield node, node.name, "no docstring"
    else:
        fields, described = fields_of(node, lines)
        for field in fields:
            for fault in entry_faults(field, described, says):
                yield node, node.name, fault
    for item in node.body:
        if isinstance(item, Function) and not item.name.startswith("_"):
            for fault in function_faults(item, method=True, says=says):
                yield item, f"{node.name}.{item.name}", fault


def file_faults(path: Path) -> Iterator[str]:
    """Say what is missing from one file, one line per fault."""
    text = path.read_text(encoding="utf-8")
    tree = ast.parse(text)
    says = DRAWN if "charts" in path.parts else SAYS_ITS_UNIT
    if not ast.get_docstring(tree):
        yield f"{path}:1: no docstring at the top of the file"
    for node in tree.body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            for place, name, fault in class_faults(node, text.splitlines(), says):
                yield f"{path}:{getattr(place, 'lineno', 1)}: {name}: {fault}"
        elif isinstance(node, Function) and not node.name.startswith("_"):
            for fault in function_faults(node, method=False, says=says):
                yield f"{path}:{node.lineno}: {node.name}: {fault}"


def main(folders: list[str]) -> int:
    """Check the folders, or the whole package, and return the exit status."""
    roots = [Path(folder) for folder in folders] or [ROOT / "src"]
    files = sorted(path for root in roots for path in root.rglob("*.py"))
    faults = [fault for path in files for fault in file_faults(path)]
    print("\n".join(faults) if faults else f"docstrings: {len(files)} files in order")
    if not files:
        print(f"docstrings: no Python file under {', '.join(map(str, roots))}")
    return 1 if faults or not files else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
