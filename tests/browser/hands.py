"""What tests do with a pointer, said in the job's own mm."""

from itertools import pairwise

from .conftest import Opened

Point = tuple[float, float]


class Sheet:
    """Where the job's mm lie on the screen at the moment, read off the wall as it is drawn."""

    def __init__(self, opened: Opened) -> None:
        self.page = opened.page
        left, foot, right, head = opened.state()["drawing"]["extent"]
        box = self.page.locator("g.wall rect").bounding_box()
        self.scale = box["width"] / (right - left)
        self.left, self.floor = box["x"] - left * self.scale, box["y"] + box["height"]
        assert abs(box["height"] - head * self.scale) < 2, "its floor is at 0"
        assert foot <= 0 <= head

    def at(self, point: Point) -> Point:
        """A point of the job in px of the window."""
        return self.left + point[0] * self.scale, self.floor - point[1] * self.scale

    def drag(self, *points: Point) -> None:
        """Press at the first point, let go at the last, in steps as a hand does."""
        self.hold(*points)
        self.page.mouse.up()

    def hold(self, *points: Point) -> None:
        """The same without letting go."""
        self.page.mouse.move(*self.at(points[0]))
        self.page.mouse.down()
        for start, end in pairwise(map(self.at, points)):
            for step in range(1, 9):
                share = step / 8
                self.page.mouse.move(start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
                self.page.wait_for_timeout(20)
        self.page.wait_for_timeout(250)

    def press(self, point: Point) -> None:
        """A press and nothing more."""
        self.page.mouse.move(*self.at(point))
        self.page.wait_for_timeout(60)
        self.page.mouse.down()
        self.page.mouse.up()
