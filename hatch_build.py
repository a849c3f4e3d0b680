"""Builds the page into the package where it is out of date; `page/build.py` does the work.

A wheel built from the source archive holds the page already and needs neither Node nor npm's registry.
`DRYFIT_SKIP_PAGE=1` leaves the page as it is.
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
        """What pip must fetch before the build: Node, where the page is stale and the system has none."""
        page = self._page()
        return [page.NODE] if page is not None and page.stale() and page.system_node() is None else []

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the page where it is out of date."""
        page = self._page()
        if page is not None and page.stale():
            page.build_page()

    def _page(self) -> ModuleType | None:
        """The module `page/build.py`; None where there is no page to build."""
        path = Path(self.root) / "page" / "build.py"
        spec = importlib.util.spec_from_file_location("dryfit_page_build", path)
        if not path.is_file() or spec is None or spec.loader is None:
            return None
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        return module
