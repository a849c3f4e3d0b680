/** What the server says of work that a light has asked for, to whoever asked. */
import type { Live } from "./wire";

const listeners = new Set<(message: Live) => void>();

/** Be told of it, until the page is left or what is given back is called. */
export function hear(listener: (message: Live) => void): () => void {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}

export function tell(message: Live): void {
  for (const listener of listeners) listener(message);
}
