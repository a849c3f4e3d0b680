"""Who may speak to the server: this page in this browser, and nobody else.

    host     the Host named is one of the server's own, so that no foreign name can be pointed here
    origin   what changes anything, and the socket, comes from a page of this server
    cookie   everything but the door needs the cookie that the printed link was exchanged for
    size     no body above what the largest job needs
    policy   the page runs our own script alone, and is shown in no other page

The printed link holds a token that is good once: it is exchanged for a cookie that scripts cannot read and
dropped from the address. With `--host` a password opens the door instead; an address that gave a wrong one a few times
waits a minute, and nobody else with it.
"""

import hmac
import ipaddress
import secrets
import socket
import time
from collections import OrderedDict, deque
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any, TypeAlias

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.requests import cookie_parser
from starlette.responses import Response

from ...editing.refusals import Refused, refused
from .replies import written

Scope: TypeAlias = MutableMapping[str, Any]
Message: TypeAlias = MutableMapping[str, Any]
Receive: TypeAlias = Callable[[], Awaitable[Message]]
Send: TypeAlias = Callable[[Message], Awaitable[None]]
App: TypeAlias = Callable[[Scope, Receive, Send], Awaitable[None]]

LARGEST_BODY = 4_000_000  # a text of 1 MB, every character escaped at its worst, with room
HARMLESS = frozenset({"GET", "HEAD", "OPTIONS"})
DOOR = frozenset({"/", "/login"})
TRIES, TRY_WINDOW = 5, 60.0  # wrong passwords a minute, from one address
MOST_CALLERS = 1000  # addresses remembered; with so many a password of 59 bits is safe for longer than the house stands
LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"  # none that is mistaken for another when copied from a screen
CLOSE_REFUSED = 1008  # policy, RFC 6455 section 7.4.1


class Door:
    """What opens the page.

    Attributes:
        hosts: names and addresses the server answers to, with the port.
        password: for other machines; "" where only this one is served.
        on_link: told of each new link, since a link is good once.
    """

    def __init__(
        self,
        hosts: Iterable[str],
        port: int,
        *,
        anywhere: bool = False,
        password: str = "",
        on_link: Callable[[str], None] = lambda token: None,
    ) -> None:
        self.port = port
        self.hosts = frozenset(host.lower() for host in hosts)
        self.anywhere = anywhere
        self.password = password
        self.on_link = on_link
        self.token = secrets.token_urlsafe(32)
        self._secret = secrets.token_urlsafe(32)
        self._tries: OrderedDict[str, deque[float]] = OrderedDict()

    @property
    def cookie_name(self) -> str:
        """Of its own for each port: browsers keep one jar for all ports of a machine."""
        return f"dryfit-{self.port}"

    def exchange(self, token: str) -> bool:
        """Whether the token opens the door; from then on another one does."""
        if not self.token or not hmac.compare_digest(token.encode(), self.token.encode()):
            return False
        self.token = secrets.token_urlsafe(32)
        self.on_link(self.token)
        return True

    def try_password(self, password: str, address: str, now: float | None = None) -> bool:
        """Whether the password opens the door to a caller, as `caller` names him.

        Raises:
            Refused: he gave a wrong one too often lately.
        """
        now = time.monotonic() if now is None else now
        tries = self._tries.setdefault(address, deque(maxlen=TRIES))
        self._tries.move_to_end(address)
        if len(self._tries) > MOST_CALLERS:
            self._tries.popitem(last=False)
        if len(tries) == TRIES and now - tries[0] <= TRY_WINDOW:
            raise refused("too often", "a wrong password was given too often from this address", "wait a minute")
        if self.password and hmac.compare_digest(password.encode(), self.password.encode()):
            del self._tries[address]
            return True
        tries.append(now)
        return False

    def let_in(self, response: Response) -> Response:
        """Give a browser the cookie."""
        response.set_cookie(self.cookie_name, self._secret, httponly=True, samesite="strict", path="/")
        return response

    def knows(self, headers: Headers) -> bool:
        """Whether a request brings the cookie."""
        given = cookie_parser(headers.get("cookie", "")).get(self.cookie_name, "")
        return hmac.compare_digest(given.encode(), self._secret.encode())

    def is_own_host(self, host: str) -> bool:
        """Whether a Host header names this server.

        On all addresses any bare address will do: what a hostile page can point here is a name.
        """
        host = host.lower()
        if host in self.hosts:
            return True
        name, colon, port = host.rpartition(":")
        if not self.anywhere or not colon or port != str(self.port):
            return False
        try:
            ipaddress.ip_address(name.strip("[]"))
        except ValueError:
            return False
        return True

    def is_own_origin(self, origin: str, host: str) -> bool:
        """Whether an Origin header is that of a page of this server."""
        return origin.lower() == f"http://{host.lower()}" and self.is_own_host(host)


def caller(address: str, own: str = "") -> str:
    """Whom an address counts as: itself, of IPv6 its network of 64 bits, in which a single host has all it wants.

    Args:
        address: of who calls.
        own: the server's own at that connection: whoever calls from this machine counts by himself.
    """
    try:
        found = ipaddress.ip_address(address.partition("%")[0])
    except ValueError:
        return address
    if isinstance(found, ipaddress.IPv4Address):
        return str(found)
    if found.ipv4_mapped is not None:
        return str(found.ipv4_mapped)
    if address == own or found.is_link_local or found.is_loopback:
        return str(found)  # neighbours on one cable share the network of link-local addresses
    return str(ipaddress.ip_network((found, 64), strict=False))


def new_password() -> str:
    """A password that can be read off a screen: three groups of four, some 59 bits."""
    return "-".join("".join(secrets.choice(LETTERS) for _ in range(4)) for _ in range(3))


def own_hosts(host: str, port: int) -> frozenset[str]:
    """The names by which a server at that address is called."""
    names = {host, "localhost", "127.0.0.1", "[::1]"} if host in ("127.0.0.1", "localhost", "::1") else {host}
    if host in ("0.0.0.0", "::"):
        names |= {"localhost", "127.0.0.1", "[::1]", socket.gethostname(), f"{socket.gethostname()}.local"}
    bracketed = (f"[{name}]" if ":" in name and not name.startswith("[") else name for name in names)
    return frozenset(f"{name}:{port}".lower() for name in bracketed)


def policy(nonce: str, host: str) -> str:
    """What the page may do: our own script, style, pictures and socket."""
    return "; ".join((
        "default-src 'none'",
        "script-src 'self'",
        f"style-src 'self' 'nonce-{nonce}'",
        "style-src-attr 'unsafe-inline'",  # places and sizes set on elements; no script can come of them
        "img-src 'self' data: blob:",
        "font-src 'self'",
        f"connect-src 'self' ws://{host}",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    ))  # fmt: skip


class Guard:
    """Stands before the whole server."""

    def __init__(self, app: App, door: Door) -> None:
        self.app = app
        self.door = door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or refuse it."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        nonce = secrets.token_urlsafe(18)
        scope.setdefault("state", {})["nonce"] = nonce
        try:
            self._look(scope, headers)
        except Refused as fault:
            await _turn_away(fault, scope, receive, self._sealed(send, nonce, ""))
            return
        if scope["type"] == "websocket":
            await self.app(scope, receive, send)
            return
        sealed = self._sealed(send, nonce, headers.get("host", ""))
        await self.app(scope, CountedBody(receive).receive, sealed)

    def _look(self, scope: Scope, headers: Headers) -> None:
        host = headers.get("host", "")
        if not self.door.is_own_host(host):
            raise refused("wrong host", "this server does not answer to that name", "use the link that Dryfit printed")
        changes = scope["type"] == "websocket" or scope["method"] not in HARMLESS
        origin = headers.get("origin")
        if (changes or origin is not None) and not self.door.is_own_origin(origin or "", host):
            raise refused("not allowed", "this request comes from another page", "use Dryfit's own page")
        if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none") and scope["path"] not in DOOR:
            raise refused("not allowed", "this request comes from another site", "use Dryfit's own page")
        if scope["path"] not in DOOR and not self.door.knows(headers):
            raise refused("not known", "this browser was not let in", "use the link that Dryfit printed")
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > LARGEST_BODY:
            raise _too_large()

    def _sealed(self, send: Send, nonce: str, host: str) -> Send:
        async def sealed(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                headers["Content-Security-Policy"] = policy(nonce, host if self.door.is_own_host(host) else "127.0.0.1")
                headers["X-Content-Type-Options"] = "nosniff"
                headers["Referrer-Policy"] = "no-referrer"
                headers["Cross-Origin-Opener-Policy"] = "same-origin"
                headers["Cross-Origin-Resource-Policy"] = "same-origin"
                headers["X-Frame-Options"] = "DENY"
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        return sealed


def _too_large() -> Refused:
    return refused("too large", "this is more than a job can hold", f"send less than {LARGEST_BODY // 1_000_000} MB")


class CountedBody:
    """Counts a body as it comes, since it need not say how long it is."""

    def __init__(self, receive: Receive) -> None:
        self._receive = receive
        self._size = 0

    async def receive(self) -> Message:
        """The next piece.

        Raises:
            HTTPException: it is one too many.
        """
        message = await self._receive()
        self._size += len(message.get("body", b""))
        if self._size > LARGEST_BODY:
            raise HTTPException(413, _too_large().fault.says)
        return message


async def _turn_away(fault: Refused, scope: Scope, receive: Receive, send: Send) -> None:
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": CLOSE_REFUSED, "reason": fault.fault.code})
        return
    await written(fault.refusal, fault.status)(scope, receive, send)
