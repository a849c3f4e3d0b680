/** Every change of the job goes through here: one after the other, each told apart by an id, so that a resend is harmless. */
import { job } from "./job.svelte";
import { Refused, server, Unreached } from "./network/client";
import type { Changed, Doing, Edit, Fault } from "./wire";

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

type Send = (base: Based, sure: boolean) => Promise<Changed>;
type Beside = (fault: Fault) => void;

/** Put a change behind those under way; true when it is saved. A question still open is answered by it: no. @param beside takes a refusal that is to be said there, and not over the card. */
export function inTurn(send: Send, beside?: Beside): Promise<boolean> {
  job.asked?.answer(false);
  const turn = last.then(() => done(send, beside));
  last = turn;
  return turn;
}

/** When all changes under way are saved, or refused. */
export async function changed(): Promise<void> {
  await last;
}

async function done(send: Send, beside?: Beside): Promise<boolean> {
  let base = { operation_id: operationId(), base_revision: job.revision };
  let sure = false;
  for (let tried = 1; ; tried += 1) {
    try {
      const changed = await send(base, sure);
      job.take(changed.state);
      job.trouble = null;
      return true;
    } catch (error) {
      if (error instanceof Unreached && tried < TRIES) {
        await new Promise((resolve) => setTimeout(resolve, BETWEEN * tried));
        continue;
      }
      if (error instanceof Refused && error.fault.code === "ask" && !sure) {
        sure = await answered(error.fault.says);
        if (!sure) return false;
        base = { operation_id: operationId(), base_revision: job.revision };
        continue;
      }
      if (beside && error instanceof Refused && error.fault.code === "refused") beside(error.fault);
      else await refused(error);
      return false;
    }
  }
}

/** Ask beside the card, and wait for the answer. */
function answered(says: string): Promise<boolean> {
  return new Promise((resolve) => {
    job.asked = {
      says,
      answer: (sure) => {
        job.asked = null;
        resolve(sure);
      },
    };
  });
}

async function refused(error: unknown): Promise<void> {
  if (error instanceof Refused) {
    job.trouble = { says: error.fault.says, remedy: error.fault.remedy };
    if (error.fault.code === "stale") job.take(await server.state());
  } else if (error instanceof Unreached) {
    job.trouble = { says: "Dryfit's server does not answer; this change is not saved.", remedy: "Start it again in the terminal." };
  } else throw error;
}

export function doing(what: Doing, label = "", beside?: Beside): Promise<boolean> {
  return inTurn((base, sure) => server.edit({ ...base, doing: what, label, sure }), beside);
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

/** @param was the text that it was typed in: what others have changed since is kept. */
export function writeText(text: string, was: string): Promise<boolean> {
  return inTurn((base) => server.text(base, text, was));
}
