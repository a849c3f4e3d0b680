"""Properties with a tenth of their examples, for a first look: the same ones, in the same order, only fewer."""

import os
from collections.abc import Callable
from functools import partial
from typing import Any

from hypothesis import settings

FIRST_LOOK = os.environ.get("HYPOTHESIS_PROFILE") == "fast"
PART = 10
LEAST = 5
_as_asked = settings.__call__


def fewer(asked: settings) -> settings:
    """A tenth of the examples that are asked for, at least five."""
    return settings(asked, max_examples=max(LEAST, asked.max_examples // PART))


def fewer_everywhere() -> None:
    """Let every `@settings` from here on draw fewer, that of a property inside a test too."""
    settings.__call__ = lambda asked, test: _as_asked(fewer(asked), test)  # type: ignore[method-assign, assignment]


def counted(examples: int, **more: Any) -> Callable[[Any], Any]:
    """`@settings` of a property whose examples are counted after it: all of them, in a first look as well."""
    return partial(_as_asked, settings(max_examples=examples, **more))
