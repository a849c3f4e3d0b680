"""A job behind a server, as the tests of the page's server drive it: a window that was let in, without a socket.

The job is a shelf of three boards: two uprights 18 thick at x = 200 and 1000, and a shelf between them at
y = 500 that is 800 long and housed in both.
"""

import itertools

from fastapi.testclient import TestClient

from dryfit.web.server.safety import Door, own_hosts
from dryfit.web.server.server import create_app

PORT = 4170
HOME = f"http://127.0.0.1:{PORT}"
SHELF = """\
dryfit = 1

[job]
title = "Shelf"          # demo

[measures]
low = 500
wide = 1000

[timber.oak]
species = "oak, white"
thickness = 18

[[board]]
name = "left upright"
line = [[200, 0], [200, 900]]
depth = 250

[[board]]
name = "right upright"
line = [["wide", 0], ["wide", 900]]
depth = 250

[[board]]
name = "shelf"
line = [[200, "low"], ["wide", "low"]]
depth = 230
"""
# Three boards through one point, which no joint is made at: some of the cures that setting out offers are sure.
NODE = """\
dryfit = 1
[timber.oak]
species = "oak, white"
thickness = 24
""" + "".join(
    f'[[board]]\nname = "{name}"\nline = {line}\ndepth = 300\n'
    for name, line in (
        ("shelf", "[[0, 600], [2000, 600]]"),
        ("one", "[[800, 0], [1200, 1200]]"),
        ("two", "[[1200, 0], [800, 1200]]"),
    )
)
# A board of 4000 in stock of 1500, so three members, and four posts that cross it.
LONG = """\
dryfit = 1

[timber.oak]
species = "oak, white"
thickness = 24
longest = 1500

[[board]]
name = "shelf"
line = [[0, 600], [4000, 600]]
depth = 300

[[board]]
name = "post {i}"
count = 4
line = [["i * 800", 0], ["i * 800", 1200]]
depth = 300
"""
OWN_FAULT = "fault of Dryfit"  # in every sentence about a fault of our own, whatever answer it comes in
_operations = itertools.count(1)


def operation():
    """An id no other change has."""
    return f"operation-{next(_operations):08d}"


class Window:
    """A window that was let in, and knows the revision it last saw."""

    def __init__(self, job, **headers):
        self.app = create_app(job, door=Door(own_hosts("127.0.0.1", PORT), PORT))
        self.job = job
        self.client = TestClient(self.app, base_url=HOME, headers={"Origin": HOME, **headers})
        self.client.get("/", params={"token": self.app.state.door.token})

    @property
    def session(self):
        return self.app.state.service.session

    def state(self):
        return self.client.get("/api/state").raise_for_status().json()

    def revision(self):
        return self.session.revision

    def post(self, path, **sent):
        return self.client.post(f"/api/{path}", json=sent)

    def do(self, base=None, op=None, label="", **doing):
        base = self.revision() if base is None else base
        return self.post("edit", base_revision=base, operation_id=op or operation(), doing=doing, label=label)

    def preview(self, base=None, **doing):
        return self.post("preview", base_revision=self.revision() if base is None else base, doing=doing)

    def step(self, word):
        return self.post(word, base_revision=self.revision(), operation_id=operation())

    def write(self, text):
        return self.post("text", base_revision=self.revision(), operation_id=operation(), text=text)

    def close(self):
        self.client.close()
        self.session.close()


def moved(board, dx, dy, choice=""):
    """A drag of one board."""
    return {"do": "drag", "target": {"what": "boards", "boards": [board]}, "by": [dx, dy], "choice": choice}
