/** First fetch, and staying in step: another window, an outside edit, slow results. */
import { tell } from "./heard";
import { job } from "./job.svelte";
import { Refused, server, Unreached } from "./network/client";
import { listen } from "./network/live";
import { assertNever } from "./assert";
import type { Live } from "./wire";
import { words } from "./words.svelte";

async function fetchState(): Promise<void> {
  try {
    job.take(await server.state());
  } catch (error) {
    if (error instanceof Refused) job.trouble = error.fault;
    else if (error instanceof Unreached) job.lost = true;
    else throw error;
  }
}

function heard(message: Live): void {
  switch (message.kind) {
    case "hello":
    case "changed":
    case "file":
      if (message.kind !== "changed" || message.revision > job.revision) void fetchState();
      return;
    case "rest":
      job.progress = null;
      void fetchState();
      return;
    case "study":
      return; // who shows it asks for it
    case "progress":
      if (message.task === null) job.progress = message.done < 1 ? { done: message.done, says: message.says } : null;
      else tell(message);
      return;
    case "papers":
      tell(message);
      return;
    default:
      assertNever(message.kind);
  }
}

export function start(): () => void {
  void fetchState();
  void words.fetch().catch(() => undefined); // without it there are no marks; the state says what is wrong
  return listen({
    heard,
    reached: () => {
      job.lost = false;
      void fetchState();
      if (words.schema === null) void words.fetch().catch(() => undefined);
    },
    lost: () => {
      job.lost = true;
    },
  });
}
