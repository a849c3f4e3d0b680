"""Nothing acknowledged is lost: the server is killed as by a power cut, and the page opened anew.

Also what the page is allowed to do: nothing from outside, no inline script; and that it works with nothing but
this machine.
"""

import re
from collections.abc import Callable

from .conftest import Opened

Opening = Callable[..., Opened]


def test_after_a_kill_the_last_change_is_there_and_can_be_undone(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.choose("raking 1")
    opened.page.locator("#drawing").focus()
    opened.page.keyboard.press("Shift+ArrowRight")
    opened.settled(before["revision"] + 1)
    opened.server.kill()
    assert re.search(r"line\s+= \[\[570, 0\]", opened.job.read_text(encoding="utf-8"))
    opened.page.get_by_text("server does not answer").wait_for()
    opened.console.clear()  # it said so in the console as well, as it should
    opened.server.start()
    opened.page.goto(opened.server.link)
    opened.page.wait_for_selector("g.board")
    opened.console.clear()  # until the new page stood, the old one went on asking
    assert opened.board("raking 1")["line"][0][0] == 570.0
    opened.page.get_by_role("button", name="undo").click()
    opened.page.wait_for_timeout(500)
    assert opened.job.read_text(encoding="utf-8") == before["text"]


def test_the_page_asks_nobody_but_its_own_server(open_job: Opening):
    opened = open_job(offline=False)
    asked: list[str] = []
    opened.page.on("request", lambda request: asked.append(request.url))
    opened.page.reload()
    opened.page.wait_for_selector("g.board")
    for light in ("Brief", "Together", "Papers", "Set out"):
        opened.page.get_by_role("button", name=light, exact=False).first.click()
        opened.page.wait_for_timeout(300)
    own = opened.page.url.rstrip("/")
    assert len(asked) > 8
    assert [url for url in asked if not url.startswith((own, own.replace("http", "ws")))] == []


def test_the_content_policy_lets_no_inline_script_run(open_job: Opening):
    opened = open_job()
    ran = opened.page.evaluate(
        """() => {
            const script = document.createElement("script");
            script.textContent = "window.ran = true";
            document.head.append(script);
            return window.ran === true;
        }"""
    )
    assert not ran
    assert any("Content Security Policy" in line for line in opened.console)
    opened.console.clear()
