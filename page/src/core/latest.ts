/**
 * Run slow questions one at a time, and of those asked meanwhile only the latest.
 *
 * While a hand drags, each pointer event asks; an answer to an older place is of no use.
 */
export function latest<Asked, Told>(ask: (asked: Asked) => Promise<Told>, tell: (told: Told) => void, failed: (error: unknown) => void): (asked: Asked) => void {
  let waiting: { asked: Asked } | null = null;
  let running = false;

  async function run(): Promise<void> {
    running = true;
    while (waiting !== null) {
      const { asked } = waiting;
      waiting = null;
      try {
        tell(await ask(asked));
      } catch (error) {
        failed(error);
      }
    }
    running = false;
  }

  return (asked) => {
    waiting = { asked };
    if (!running) void run();
  };
}
