"""Builds the page and the whole schemas where they are out of date; `tools/build.py` does the work.

A wheel built from the source archive finds all there already and needs neither Node nor npm's registry nor what
Dryfit itself needs. `DRYFIT_SKIP_PAGE=1` leaves all as it is.
"""

import importlib.util
from pathlib import Path
from types import ModuleType
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class CustomBuildHook(BuildHookInterface[Any]):
    """Called by hatchling before it packs or links the package."""

    PLUGIN_NAME = "custom"

    def dependencies(self) -> list[str]:
        """What pip must fetch first: the program's needs, where it must write its schemas, and Node for the page.

        Whether the page will be stale once the schemas are written cannot be told before, so it is taken to be.
        """
        build = self._build()
        if build is None or not build.stale():
            return []
        node = [build.NODE] if build.system_node() is None else []
        return node + (self.metadata.core.dependencies if build.made_stale() else [])

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build what is out of date, and have a wheel carry the whole schemas and pages."""
        build = self._build()
        if build is not None:
            build.build()
        if self.target_name == "wheel" and version == "standard":
            made = Path(self.root) / "docs" / "made"
            for path in sorted(path for path in made.glob("*") if not path.name.startswith(".")):
                build_data["force_include"][str(path)] = f"dryfit/manual/{path.name}"

    def _build(self) -> ModuleType | None:
        """The module `tools/build.py`; None where it is not there."""
        path = Path(self.root) / "tools" / "build.py"
        spec = importlib.util.spec_from_file_location("dryfit_build", path)
        if not path.is_file() or spec is None or spec.loader is None:
            return None
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        return module
