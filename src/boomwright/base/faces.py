"""A room's face whose names are loaded when first used: reading a plan need not load physics."""

from __future__ import annotations

import ast
from collections.abc import Callable
from importlib import import_module
from importlib.util import find_spec
from typing import Any


def on_demand(room: str) -> Callable[[str], Any]:
    """Make the ``__getattr__`` of a package from what its face imports for the type checker."""
    homes: dict[str, tuple[str, str]] = {}

    def load(name: str) -> Any:
        if not homes:
            face = find_spec(room)
            source = face.loader.get_source(room)  # type: ignore[union-attr]
            for node in ast.walk(ast.parse(source)):
                if isinstance(node, ast.ImportFrom):
                    for each in node.names:
                        homes[each.asname or each.name] = str(node.module), each.name
        if name not in homes:
            raise AttributeError(f"module {room!r} has no attribute {name!r}")
        module, given = homes[name]
        found = getattr(import_module(module), given)
        setattr(import_module(room), name, found)
        return found

    return load
