"""A room's face whose names are loaded when first used: reading a plan need not load physics."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any


def on_demand(room: str, homes: Mapping[str, str]) -> Callable[[str], Any]:
    """Make the ``__getattr__`` of a package.

    Args:
        room: name of the package
        homes: module below it -> names that it gives, parted by spaces
    """
    home = {name: module for module, names in homes.items() for name in names.split()}

    def load(name: str) -> Any:
        if name not in home:
            message = f"module {room!r} has no attribute {name!r}"
            raise AttributeError(message)
        found = getattr(import_module(f"{room}.{home[name]}"), name)
        setattr(import_module(room), name, found)
        return found

    return load
