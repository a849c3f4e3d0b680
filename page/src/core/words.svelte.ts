/** What does not change while the server runs: the schema, the kinds, the joint marks. */
import { server } from "./network/client";
import type { Schema } from "./wire";

export type Mark = Schema["marks"][number];

class Words {
  schema = $state.raw<Schema | null>(null);
  readonly marks: ReadonlyMap<string, Mark> = $derived(new Map((this.schema?.marks ?? []).map((mark) => [mark.word, mark])));

  async fetch(): Promise<void> {
    this.schema = await server.schema();
  }
}

export const words = new Words();
