"""Opens a browser on the page, without the link's token in any process's arguments.

What stands in a process's arguments anyone on the machine may read. So the browser is given a small file that only
its user can read, and that sends it on; the file goes as soon as it was used, or after a minute.
"""

import contextlib
import html
import logging
import os
import sys
import tempfile
import threading
import webbrowser
from pathlib import Path

LOG = logging.getLogger("dryfit")
STAYS = 60.0  # seconds a browser may take to start


class Invitation:
    """The file that brings a browser to the page.

    Attributes:
        file: None while there is none.
    """

    def __init__(self, link: str) -> None:
        self.link = link
        self.file: Path | None = None

    def send(self) -> None:
        """Open a browser; where that cannot be done, the printed link remains."""
        try:
            self.file = _written(self.link)
        except OSError as error:
            LOG.warning("no browser is opened: a file for it cannot be written (%s)", error.strerror)
            return
        if not webbrowser.open(self.file.as_uri()):
            self.withdraw()
            return
        timer = threading.Timer(STAYS, self.withdraw)
        timer.daemon = True
        timer.start()

    def withdraw(self) -> None:
        """Take the file away."""
        file, self.file = self.file, None
        if file is not None:
            with contextlib.suppress(OSError):
                file.unlink(missing_ok=True)


def _written(link: str) -> Path:
    """The file, readable by its user alone."""
    for folder in _folders():
        try:
            handle, name = tempfile.mkstemp(prefix="dryfit-page-", suffix=".html", dir=folder)
        except OSError:
            continue
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            address = html.escape(link, quote=True)
            file.write(
                '<!doctype html><meta charset="utf-8"><title>Dryfit</title><meta name="referrer" content="no-referrer">'
                f'<meta http-equiv="refresh" content="0;url={address}"><p><a href="{address}">To the page</a>\n'
            )
        return Path(name)
    raise OSError(0, "no folder for it")


def _folders() -> list[str]:
    """Where it may lie: on Linux at home, since browsers in a box of their own see no folder for passing files."""
    passing = tempfile.gettempdir()
    return [str(Path.home()), passing] if sys.platform == "linux" else [passing]
