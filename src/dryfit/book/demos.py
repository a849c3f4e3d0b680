"""The demo jobs that come with Dryfit: files in examples/ of a checkout, beside the package when installed."""

from functools import cache
from pathlib import Path

_PLACES = (Path(__file__).parents[1] / "examples", Path(__file__).parents[3] / "examples")


@cache
def _folder() -> Path:
    return next(place for place in _PLACES if place.is_dir())


def demos() -> tuple[str, ...]:
    """Names of the demos, in their order."""
    return tuple(sorted(path.stem for path in _folder().glob("*.toml") if not path.stem.endswith(".made")))


def demo_text(name: str) -> str:
    """The job file of a demo."""
    return (_folder() / f"{name}.toml").read_text(encoding="utf-8")
