/** What each paper is called by a maker. */
export const PAPER_WORDS: Readonly<Record<string, string>> = {
  workshop: "Workshop book",
  assembly: "Assembly booklet",
  book: "The job as data",
  parts: "List of parts",
  model: "Model to turn in hand",
  booklet: "How it goes together",
  rods: "Strips and rods",
};

export function sizeWords(bytes: number): string {
  return bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}
