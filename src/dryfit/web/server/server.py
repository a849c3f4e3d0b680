"""The server put together: routes, the built page, the door, and running it until it is ended."""

import gc
import logging
import socket
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import parse_qs, quote

import uvicorn
from fastapi import FastAPI, Request, WebSocket
from fastapi.exceptions import RequestValidationError
from fastapi.responses import FileResponse, HTMLResponse, RedirectResponse, Response
from starlette.exceptions import HTTPException
from starlette.staticfiles import StaticFiles

from ...documents.lettering import CSS_WEIGHT, FAMILY, FILES, FOLDER, STRETCH
from ...editing.answers import Live
from ...editing.refusals import Refused, refused
from ...shop.model import Shop
from ...terminal import tell_terminal
from ..service import Service
from ..store.jobfile import JobFile
from .api import router
from .connections import Connection
from .invitation import Invitation
from .live import Hub
from .replies import written
from .safety import Door, Guard, caller, new_password, own_hosts

LOG = logging.getLogger("dryfit")
STATIC = Path(__file__).parents[1] / "static"  # where tools/build.py puts the page
USUAL_PORT = 4170
LOOPBACK = ("127.0.0.1", "localhost", "::1")

_NOT_BUILT = "<p>The page is not built. In a checkout: <code>npm ci</code> and <code>npm run build</code> in page/."
_NOT_KNOWN = "<p>Use the link that Dryfit printed where it was started: it works once; after that, use the newest one."
_LOGIN = (
    '<form method="post" action="/login"><label>Password, as Dryfit printed it where it was started'
    ' <input name="password" type="password" autocomplete="off" autofocus></label> <button>Open</button></form>'
)


def create_app(job: Path, shop: Shop | None = None, door: Door | None = None) -> FastAPI:
    """The whole server of one job.

    Args:
        job: the job file.
        shop: what the maker owns; a small default shop if left out.
        door: who may come in; one for this machine only if left out.

    Raises:
        JobError: the job cannot be opened.
    """
    service = Service(job, shop)
    door = door or Door(own_hosts("127.0.0.1", USUAL_PORT), USUAL_PORT)

    @asynccontextmanager
    async def running(app: FastAPI) -> AsyncIterator[None]:
        service.start()
        yield
        await service.stop()

    app = FastAPI(title="Dryfit's page", lifespan=running, docs_url=None, redoc_url=None, openapi_url=None)
    app.state.service = service
    app.state.door = door
    app.include_router(router)
    app.add_api_websocket_route("/api/live", live)
    _add_door(app)
    _add_page(app)
    _add_faults(app)
    app.add_middleware(Guard, door=door)
    return app


async def live(websocket: WebSocket) -> None:
    """The socket over which all windows are told what happens; nothing is taken from it."""
    service: Service = websocket.app.state.service
    hub: Hub = service.hub
    await hub.listen(websocket, Live(kind="hello", revision=service.session.revision))


# --- the door and the page


def _add_door(app: FastAPI) -> None:
    @app.get("/", include_in_schema=False)
    async def page(request: Request, token: str = "") -> Response:
        door: Door = request.app.state.door
        if token and door.exchange(token):
            return door.let_in(_onward(request))
        if token and door.knows(request.headers):
            return RedirectResponse("/", status_code=303)
        if not door.knows(request.headers):
            return _bare(_LOGIN if door.password else _NOT_KNOWN, status=401)
        return _page(request.state.nonce)

    @app.post("/login", include_in_schema=False)
    async def login(request: Request) -> Response:
        door: Door = request.app.state.door
        own = (request.scope.get("server") or ("",))[0]
        address = caller(request.client.host, own) if request.client else ""
        given = parse_qs((await request.body()).decode("utf-8", "replace")).get("password", [""])[0]
        if door.try_password(given[:200], address):
            return door.let_in(RedirectResponse("/", status_code=303))
        return _bare(f"<p>Wrong password.</p>{_LOGIN}" if door.password else _NOT_KNOWN, status=401)


def _onward(request: Request) -> Response:
    """To the page itself, after the door.

    A browser that comes from elsewhere, such as from the file that it was opened with, would not bring a strict cookie
    through a redirect: a page of our own sends it on.
    """
    if request.headers.get("sec-fetch-site", "none") in ("none", "same-origin"):
        return RedirectResponse("/", status_code=303)
    return _bare('<p><a href="/">To the page</a>', head='<meta http-equiv="refresh" content="0;url=/">')


def _bare(body: str, status: int = 200, head: str = "") -> HTMLResponse:
    head = f'<!doctype html><html lang="en-GB"><meta charset="utf-8"><title>Dryfit</title>{head}'
    return HTMLResponse(f"{head}<h1>Dryfit</h1>{body}</html>", status_code=status)


def _page(nonce: str) -> HTMLResponse:
    """The built page, with the nonce of this answer where it waits for one."""
    try:
        text = (STATIC / "index.html").read_text(encoding="utf-8")
    except OSError:
        return _bare(_NOT_BUILT)
    return HTMLResponse(text.replace("__NONCE__", nonce))


def _add_page(app: FastAPI) -> None:
    @app.get("/fonts/sheets.css", include_in_schema=False)
    async def sheets_css() -> Response:
        return Response(_font_faces(), media_type="text/css", headers={"Cache-Control": "max-age=3600"})

    @app.get("/fonts/{name}", include_in_schema=False)
    async def font(name: str) -> Response:
        if name not in FILES.values():
            raise refused("not there", "there is no such font", "")
        return FileResponse(FOLDER / name, media_type="font/ttf", headers={"Cache-Control": "max-age=86400"})

    if STATIC.is_dir():
        app.mount("/", StaticFiles(directory=STATIC), name="page")


def _font_faces() -> str:
    """The sheets' own fonts, for their pictures on the page."""
    return "".join(
        f"@font-face{{font-family:'{FAMILY[weight]}';font-weight:{CSS_WEIGHT[weight]};font-stretch:{STRETCH};"
        f"src:url('/fonts/{quote(file)}') format('truetype')}}\n"
        for weight, file in FILES.items()
    )


# --- one shape of error

_OF_STATUS = {404: "not there", 405: "not there", 413: "too large"}


def _add_faults(app: FastAPI) -> None:
    @app.exception_handler(Refused)
    async def on_refused(request: Request, fault: Refused) -> Response:
        return written(fault.refusal, fault.status)

    @app.exception_handler(RequestValidationError)
    async def on_not_understood(request: Request, error: RequestValidationError) -> Response:
        first = error.errors()[0]
        place = ".".join(str(step) for step in first["loc"])
        fault = refused("not understood", f"{place}: {first['msg']}", "this is a fault in the page: load it again")
        return written(fault.refusal, fault.status)

    @app.exception_handler(HTTPException)
    async def on_http(request: Request, error: HTTPException) -> Response:
        code = _OF_STATUS.get(error.status_code, "not understood")
        fault = refused(code, str(error.detail), "look at the address")
        return written(fault.refusal, error.status_code)

    @app.exception_handler(Exception)
    async def on_fault(request: Request, error: Exception) -> Response:
        LOG.error("a request went wrong: %s %s", request.method, request.url.path, exc_info=error)
        fault = refused("went wrong", "something went wrong in Dryfit; nothing was lost", "load the page again")
        return written(fault.refusal, fault.status)


# --- running


@dataclass(frozen=True, slots=True, kw_only=True)
class Serving:
    """How a server is to be opened.

    Attributes:
        port: None for the usual one, or the next free.
        host: an address of this machine; anything but the loopback needs the password.
        browser: whether to open one.
    """

    job: Path
    shop: Shop | None = None
    port: int | None = None
    host: str = "127.0.0.1"
    browser: bool = True


def run(serving: Serving, say: Callable[[str], None]) -> None:
    """Serve a job until Ctrl-C.

    Args:
        serving: which job and how.
        say: for what the user must read: the link, what `--host` means.

    Raises:
        JobError: the job cannot be opened.
        OSError: the port is taken, or the address is not this machine's.
    """
    with _listening(serving.host, serving.port) as listening:
        port = int(listening.getsockname()[1])
        shown = serving.host if serving.host not in ("0.0.0.0", "::") else socket.gethostname()
        address = f"http://{f'[{shown}]' if ':' in shown else shown}:{port}/"
        door = _door(serving.host, port, say, address)
        app = create_app(serving.job, serving.shop, door)
        say(_opened(serving.job))
        link = _announce(door, address, say)
        invitation = Invitation(link) if serving.browser and not door.password else None
        if invitation is not None:
            door.on_link = _after(invitation.withdraw, door.on_link)
            invitation.send()
        for log in ("uvicorn", "asyncio"):
            tell_terminal(log)
        _let_collector_rest()
        try:
            uvicorn.Server(config_of(app)).run(sockets=[listening])
        finally:
            if invitation is not None:
                invitation.withdraw()


def config_of(app: FastAPI) -> uvicorn.Config:
    """How the server runs."""
    return uvicorn.Config(
        app,
        http=Connection,
        log_level="warning",
        log_config=None,  # told as our own faults are: a line each
        ws="websockets-sansio",
        ws_per_message_deflate=False,  # the machine talks to itself
        proxy_headers=False,  # who calls is who is connected, whatever his headers say
        server_header=False,
        date_header=False,
        timeout_graceful_shutdown=2,
    )


def _after(first: Callable[[], None], then: Callable[[str], None]) -> Callable[[str], None]:
    def both(token: str) -> None:
        first()
        then(token)

    return both


def _opened(job: Path) -> str:
    """That a job is open, whether it can be read, and whether it can be changed."""
    file = JobFile(job)
    seen, word = file.read(), file.wait_word()
    if seen.text is None:
        until = "nothing can be shown or changed until that is put right"
        return f"{job.name} is open, but {seen.says}: {until}. Ctrl-C ends it."
    if word:
        return f"{job.name} is open read-only: {word}, so nothing is saved. Ctrl-C ends it."
    return f"{job.name} is open. Ctrl-C ends it; every change is saved as it is made."


def _let_collector_rest() -> None:
    """Look for rings of garbage seldom: a walk through all that is kept would stand in the way of a drag step."""
    gc.freeze()
    gc.set_threshold(50_000, 20, 100)


def _door(host: str, port: int, say: Callable[[str], None], address: str) -> Door:
    hosts = own_hosts(host, port)
    if host in LOOPBACK:
        again = "Another browser, or the link already used? This one works once:"
        return Door(hosts, port, on_link=lambda token: say(f"{again} {address}?token={token}"))
    return Door(hosts, port, anywhere=host in ("0.0.0.0", "::"), password=new_password())


def _announce(door: Door, address: str, say: Callable[[str], None]) -> str:
    if door.password:
        say("Other machines can open this page: whoever has the password can read and change the job.")
        say("What they send is not encrypted; use it on a network whose users you trust, and end it afterwards.")
        say(f"  {address}   password: {door.password}")
        return address
    link = f"{address}?token={door.token}"
    say(f"  {link}")
    return link


def _listening(host: str, port: int | None) -> socket.socket:
    """A listening socket: the port asked for, or the usual one, or any that is free."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    wanted = [port] if port is not None else [USUAL_PORT, 0]
    for last, number in enumerate(wanted, start=1):
        # The protocol by name: asyncio looks at it before it sends small answers without waiting (40 ms a step).
        listening = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((host, number))
            listening.listen(128)
        except OSError:
            listening.close()
            if last == len(wanted):
                raise
        else:
            return listening
    raise AssertionError("one of them was bound or has raised")
