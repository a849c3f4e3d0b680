"""Registers that are filled by what stands in a folder: a file added to it adds the thing, and touches nothing else."""

from collections.abc import Callable, Iterable
from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType
from typing import Any, TypeVar

T = TypeVar("T")


def modules_in(package: str, path: Iterable[str]) -> tuple[ModuleType, ...]:
    """Import what stands in a package's folder, files and rooms, by name; what begins with an underscore is left alone.

    Args:
        package: its `__name__`.
        path: its `__path__`.
    """
    names = sorted(found.name for found in iter_modules(path))
    return tuple(import_module(f"{package}.{name}") for name in names if not name.startswith("_"))


class Register(dict[str, T]):
    """Things of one sort by name, in the order that each gives itself.

    Args:
        what: one of them is called, for the sentence that refuses a second of its name.
        order: of a thing; equal ones stand by name.
    """

    def __init__(self, what: str, order: Callable[[T], Any]) -> None:
        super().__init__()
        self.what = what
        self.order = order

    def file(self, name: str, thing: T) -> T:
        """Put a thing where it belongs.

        Raises:
            ValueError: the name has an owner already.
        """
        if name in self:
            raise ValueError(f"two {self.what} are called {name!r}")
        every = sorted([*self.items(), (name, thing)], key=lambda item: (self.order(item[1]), item[0]))
        self.clear()
        self.update(every)
        return thing
