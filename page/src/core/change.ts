/** Every change of the job goes through here: one after the other, each told apart by an id, so that a resend is harmless. */
import { job } from "./job.svelte";
import { Refused, server, Unreached } from "./network/client";
import type { Changed, Doing, Edit } from "./wire";

const TRIES = 5;
const BETWEEN = 400;

interface Based {
  operation_id: string;
  base_revision: number;
}

let last: Promise<unknown> = Promise.resolve();

export function operationId(): string {
  return [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Put a change behind those under way; true when it is saved. */
export function inTurn(send: (base: Based) => Promise<Changed>): Promise<boolean> {
  const turn = last.then(() => done(send));
  last = turn;
  return turn;
}

async function done(send: (base: Based) => Promise<Changed>): Promise<boolean> {
  const base = { operation_id: operationId(), base_revision: job.revision };
  for (let tried = 1; ; tried += 1) {
    try {
      const changed = await send(base);
      job.take(changed.state);
      job.trouble = null;
      return true;
    } catch (error) {
      if (error instanceof Unreached && tried < TRIES) {
        await new Promise((resolve) => setTimeout(resolve, BETWEEN * tried));
        continue;
      }
      await refused(error);
      return false;
    }
  }
}

async function refused(error: unknown): Promise<void> {
  if (error instanceof Refused) {
    const since = error.fault.since.map((version) => version.says).join("; ");
    job.trouble = { says: since ? `${error.fault.says} (${since})` : error.fault.says, remedy: error.fault.remedy };
    if (error.fault.code === "stale") job.take(await server.state());
  } else if (error instanceof Unreached) {
    job.trouble = { says: "Dryfit's server does not answer; this change is not saved.", remedy: "Start it again in the terminal." };
  } else throw error;
}

export function doing(what: Doing, label = ""): Promise<boolean> {
  return inTurn((base) => server.edit({ ...base, doing: what, label }));
}

export function change(edits: readonly Edit[], label: string): Promise<boolean> {
  return doing({ do: "edits", edits: [...edits] }, label);
}

export function undo(): Promise<boolean> {
  return job.state?.undo == null ? Promise.resolve(false) : inTurn((base) => server.undo(base));
}

export function redo(): Promise<boolean> {
  return job.state?.redo == null ? Promise.resolve(false) : inTurn((base) => server.redo(base));
}

export function writeText(text: string): Promise<boolean> {
  return inTurn((base) => server.text(base, text));
}
