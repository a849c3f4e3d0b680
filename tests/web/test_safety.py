"""Who is let in: each rule on its own, on requests and on the socket, and what every refusal looks like."""

import json
import re

import pytest
from starlette.websockets import WebSocketDisconnect

from dryfit.editing.refusals import Refused
from dryfit.web.server.safety import LARGEST_BODY, TRIES, TRY_WINDOW, Door, new_password, own_hosts
from tests.web.served import HOME, PORT, SHELF, moved, operation

SOCKET = f"ws://127.0.0.1:{PORT}/api/live"


def refusal(answer, status, code):
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/json"
    error = answer.json()["error"]
    assert error["code"] == code
    assert error["says"]
    assert list(answer.json()) == ["error"]
    return error


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:4170", "127.0.0.1", "127.0.0.1:80", "127.0.0.1.evil.example:4170", ""]
)
def test_only_its_own_names_are_answered_to(window, host):
    refusal(window.client.get("/api/state", headers={"Host": host}), 421, "wrong host")
    refusal(window.client.get("/", headers={"Host": host}), 421, "wrong host")


@pytest.mark.parametrize(
    "origin",
    ["http://evil.example", "null", "http://127.0.0.1:80", f"https://127.0.0.1:{PORT}", f"http://localhost:{PORT}"],
)
def test_changes_come_from_the_servers_own_pages(window, job, origin):
    sent = {"base_revision": 1, "operation_id": operation(), "doing": moved("shelf", 0, 5)}
    refusal(window.client.post("/api/edit", json=sent, headers={"Origin": origin}), 403, "not allowed")
    refusal(window.client.get("/api/state", headers={"Origin": origin}), 403, "not allowed")
    assert job.read_text() == SHELF


def test_a_change_without_an_origin_is_refused(window):
    del window.client.headers["Origin"]
    refusal(window.client.post("/api/undo", json={}), 403, "not allowed")
    assert window.client.get("/api/state").status_code == 200, "a link on the page brings none"


def test_another_site_may_not_even_look(window):
    refusal(window.client.get("/api/state", headers={"Sec-Fetch-Site": "cross-site"}), 403, "not allowed")


def test_nothing_is_had_without_the_cookie(window):
    window.client.cookies.clear()
    for path in ("/api/state", "/api/model", "/api/papers/workshop.pdf", "/fonts/sheets.css", "/index.html"):
        refusal(window.client.get(path), 401, "not known")
    refusal(window.client.post("/api/undo", json={}), 401, "not known")
    guess = {"Cookie": f"{window.app.state.door.cookie_name}=guess"}
    refusal(window.client.get("/api/state", headers=guess), 401, "not known")
    page = window.client.get("/")
    assert page.status_code == 401
    assert "<script" not in page.text


def test_a_link_is_good_once_and_is_dropped_from_the_address(window):
    links = []
    door = window.app.state.door
    door.on_link = links.append
    window.client.cookies.clear()
    token = door.token
    let_in = window.client.get("/", params={"token": token}, follow_redirects=False)
    assert (let_in.status_code, let_in.headers["location"]) == (303, "/")
    cookie = let_in.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=strict" in cookie
    assert token not in cookie
    assert links == [door.token], "the next one is printed"
    assert door.token != token
    window.client.cookies.clear()
    assert window.client.get("/", params={"token": token}, follow_redirects=False).status_code == 401


@pytest.mark.parametrize("token", ["", "x", "é", "x" * 9000])
def test_a_guessed_token_opens_nothing(window, token):
    window.client.cookies.clear()
    assert window.client.get("/", params={"token": token}, follow_redirects=False).status_code == 401


def test_the_socket_is_guarded_as_the_routes_are(window):
    with window.client.websocket_connect(SOCKET, headers={"Origin": HOME}) as socket:
        assert socket.receive_json()["kind"] == "hello"
    for headers in ({"Origin": "http://evil.example"}, {"Origin": HOME, "Host": "evil.example:4170"}):
        with pytest.raises(WebSocketDisconnect), window.client.websocket_connect(SOCKET, headers=headers):
            pass
    window.client.cookies.clear()
    with pytest.raises(WebSocketDisconnect), window.client.websocket_connect(SOCKET, headers={"Origin": HOME}):
        pass


@pytest.mark.parametrize(
    "path",
    ["/../shelf.toml", "/..%2fshelf.toml", "/fonts/..%2f..%2f..%2fcli.py", "/fonts/%2fetc%2fpasswd", "/%2e%2e/x",
     "/api/papers/..%2f..%2fshelf.toml", "/api/papers/%2e%2e%2fshelf/1.svg"],
)  # fmt: skip
def test_no_path_leads_out(window, path):
    answer = window.client.get(path)
    assert answer.status_code == 404
    assert "dryfit = 1" not in answer.text
    assert "root:" not in answer.text


def test_papers_are_saved_under_their_own_names_alone(window, job):
    refusal(window.post("papers/save", files=["../../evil"]), 404, "not there")
    refusal(window.post("papers", names=["../../evil"]), 404, "not there")
    assert sorted(path.name for path in job.parent.iterdir() if "history" not in path.name) == ["shelf.toml"]


def test_a_body_too_large_is_refused_by_its_word_and_by_its_size(window):
    def pieces():
        for _ in range(LARGEST_BODY // 100_000 + 2):
            yield b"x" * 100_000

    json_type = {"Content-Type": "application/json"}
    declared = window.client.post("/api/text", content=b"x" * (LARGEST_BODY + 1), headers=json_type)
    refusal(declared, 413, "too large")
    refusal(window.client.post("/api/text", content=pieces(), headers=json_type), 413, "too large")


@pytest.mark.parametrize(
    "sent",
    [b"", b"[", b"{}", b'{"base_revision": 1e99}', b"\xff\xfe", json.dumps({"doing": {"do": "fly"}}).encode()],
    ids=["empty", "broken", "missing", "huge number", "no text", "unknown deed"],
)
def test_what_is_not_understood_has_the_one_shape(window, sent):
    answer = window.client.post("/api/edit", content=sent, headers={"Content-Type": "application/json"})
    refusal(answer, 422, "not understood")


def test_even_a_fault_of_ours_has_the_one_shape(window, monkeypatch):
    from fastapi.testclient import TestClient

    def fails(*_):
        raise RuntimeError("secret of the machine")

    monkeypatch.setattr(type(window.app.state.service), "state", fails)
    lenient = TestClient(window.app, base_url=HOME, raise_server_exceptions=False, cookies=window.client.cookies)
    answer = lenient.get("/api/state")
    error = refusal(answer, 500, "went wrong")
    assert "secret" not in answer.text
    assert error["remedy"]


def test_the_page_may_run_its_own_script_alone(window):
    answers = [window.client.get("/"), window.client.get("/"), window.client.get("/api/state")]
    for answer in answers:
        policy = dict(part.split(" ", 1) for part in answer.headers["content-security-policy"].split("; "))
        assert policy["default-src"] == "'none'"
        assert policy["script-src"] == "'self'"
        assert policy["frame-ancestors"] == "'none'"
        assert policy["base-uri"] == "'none'"
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["cache-control"] == "no-store"
    nonces = {re.search(r"nonce-([^']+)", answer.headers["content-security-policy"])[1] for answer in answers}
    assert len(nonces) == 3, "a nonce is used once"


def test_a_refused_request_is_sealed_as_well(window):
    window.client.cookies.clear()
    assert "default-src 'none'" in window.client.get("/api/state").headers["content-security-policy"]


# ---- with --host


@pytest.fixture
def open_door(window):
    door = Door(own_hosts("0.0.0.0", PORT), PORT, anywhere=True, password="abcd-efgh-jkmn")
    window.app.state.door = door
    window.client.cookies.clear()
    return door


def test_a_password_lets_in_and_is_tried_a_few_times_a_minute():
    door = Door(own_hosts("0.0.0.0", PORT), PORT, anywhere=True, password="right")
    for second in range(TRIES):
        assert not door.try_password("wrong", "10.0.0.1", now=float(second))
    with pytest.raises(Refused) as refused:
        door.try_password("right", "10.0.0.1", now=float(TRIES))
    assert refused.value.status == 429
    assert door.try_password("right", "10.0.0.1", now=TRY_WINDOW + 1.0)


def test_the_password_is_asked_for_by_a_form_without_script(window, open_door):
    page = window.client.get("/")
    assert page.status_code == 401
    assert 'action="/login"' in page.text
    assert "<script" not in page.text
    assert window.client.post("/login", data={"password": "guess"}, follow_redirects=False).status_code == 401
    let_in = window.client.post("/login", data={"password": open_door.password}, follow_redirects=False)
    assert let_in.status_code == 303
    assert "HttpOnly" in let_in.headers["set-cookie"]


@pytest.mark.parametrize(
    ("host", "own"),
    [("192.168.1.20:4170", True), ("[fe80::1]:4170", True), ("evil.example:4170", False), ("192.168.1.20:80", False),
     ("192.168.1.20", False), ("192.168.1.20.evil.example:4170", False)],
)  # fmt: skip
def test_on_all_addresses_any_bare_address_will_do_and_no_foreign_name(host, own):
    assert Door(own_hosts("0.0.0.0", PORT), PORT, anywhere=True, password="x").is_own_host(host) is own
    assert not Door(own_hosts("127.0.0.1", PORT), PORT).is_own_host(host)


def test_passwords_are_long_and_differ():
    made = {new_password() for _ in range(200)}
    assert len(made) == 200
    assert all(re.fullmatch(r"([a-hj-km-np-z2-9]{4}-){2}[a-hj-km-np-z2-9]{4}", word) for word in made)
