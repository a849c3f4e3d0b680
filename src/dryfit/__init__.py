"""Dryfit turns a maker's job file into a job book for interlocking solid-wood furniture.

    import dryfit

    job = dryfit.read("wall.toml")     # raises dryfit.errors.JobError: every mistake, with its line
    book = dryfit.build(job)           # boards, joints, parts, findings
    for finding in book.findings:
        print(finding.severity, finding.says)

Importing this package loads nothing else: what a name needs comes in when the name is first used, so that
`dryfit --version` answers at once.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from . import errors
    from .book import build, read

__version__ = "0.1.0"
__all__ = ["__version__", "build", "errors", "read"]


def __getattr__(name: str) -> object:
    if name == "errors":
        return import_module(".errors", __name__)
    if name in {"build", "read"}:
        import_module(".documents.notebook", __name__)  # what they give shows itself there
        return getattr(import_module(".book", __name__), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__() -> list[str]:
    return sorted(__all__)
