"""All open windows, told what happens: one socket each, with a short queue, so that a slow one holds up nobody."""

import asyncio

from starlette.websockets import WebSocket, WebSocketDisconnect

from ...editing.answers import Live
from .replies import adapter

QUEUE = 200  # messages; a window that is further behind is let go, and asks for the whole state when it is back


class Hub:
    """The windows that listen."""

    def __init__(self) -> None:
        self._queues: set[asyncio.Queue[str | None]] = set()

    def tell(self, live: Live) -> None:
        """Tell all windows."""
        if not self._queues:
            return
        text = adapter(Live).dump_json(live).decode()
        for queue in [*self._queues]:
            if queue.full():
                self._queues.discard(queue)
                queue.get_nowait()
                queue.put_nowait(None)
            else:
                queue.put_nowait(text)

    async def listen(self, socket: WebSocket, hello: Live) -> None:
        """Serve one window until it closes."""
        await socket.accept()
        queue: asyncio.Queue[str | None] = asyncio.Queue(QUEUE)
        self._queues.add(queue)
        ear = asyncio.create_task(_until_closed(socket, queue))
        try:
            await socket.send_text(adapter(Live).dump_json(hello).decode())
            while (text := await queue.get()) is not None:
                await socket.send_text(text)
        except (WebSocketDisconnect, RuntimeError):
            pass  # it closed while we spoke
        finally:
            self._queues.discard(queue)
            ear.cancel()


async def _until_closed(socket: WebSocket, queue: "asyncio.Queue[str | None]") -> None:
    """Nothing is taken from a window; what it sends is thrown away, and its closing ends the listening."""
    try:
        while True:
            message = await socket.receive()
            if message["type"] == "websocket.disconnect":
                break
    finally:
        if queue.full():
            queue.get_nowait()
        queue.put_nowait(None)
