"""A room's face whose names are loaded when first used: reading a plan need not load physics."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib import import_module
from types import ModuleType
from typing import Any


def _keep_names(room: str, names: set[str]) -> None:
    """Keep names of a room from being taken by the modules below it that are called alike.

    Whoever imports such a module by its full name first would leave it in the place of the name.
    """

    class Face(ModuleType):
        def __setattr__(self, name: str, value: Any) -> None:
            if not (name in names and isinstance(value, ModuleType)):
                super().__setattr__(name, value)

    import_module(room).__class__ = Face


def on_demand(room: str, homes: Mapping[str, str]) -> Callable[[str], Any]:
    """Make the ``__getattr__`` of a package.

    Args:
        room: name of the package
        homes: module below it -> names that it gives, parted by spaces
    """
    home = {name: module for module, names in homes.items() for name in names.split()}
    alike = {name for name, module in home.items() if name == module}
    if alike:
        _keep_names(room, alike)

    def load(name: str) -> Any:
        if name not in home:
            message = f"module {room!r} has no attribute {name!r}"
            raise AttributeError(message)
        found = getattr(import_module(f"{room}.{home[name]}"), name)
        setattr(import_module(room), name, found)
        return found

    return load
