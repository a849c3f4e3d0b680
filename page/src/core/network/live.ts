/** The socket that keeps several windows in step; it reconnects by itself. */
import type { Live } from "../wire";

const FIRST_WAIT = 500;
const LONGEST_WAIT = 8000;

export interface Listener {
  heard(message: Live): void;
  /** The socket is there (again): what was missed must be fetched. */
  reached(): void;
  lost(): void;
}

export function listen(listener: Listener): () => void {
  let socket: WebSocket | null = null;
  let wait = FIRST_WAIT;
  let timer = 0;
  let over = false;

  function connect(): void {
    const address = new URL("./api/live", location.href);
    address.protocol = address.protocol === "https:" ? "wss:" : "ws:";
    socket = new WebSocket(address);
    socket.onopen = () => {
      wait = FIRST_WAIT;
      listener.reached();
    };
    socket.onmessage = (event: MessageEvent<string>) => {
      const message: Live = JSON.parse(event.data);
      listener.heard(message);
    };
    socket.onclose = () => {
      if (over) return;
      listener.lost();
      timer = window.setTimeout(connect, wait);
      wait = Math.min(LONGEST_WAIT, wait * 2);
    };
  }

  connect();
  return () => {
    over = true;
    clearTimeout(timer);
    socket?.close();
  };
}
