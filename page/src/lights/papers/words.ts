export function sizeWords(bytes: number): string {
  return bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}

/** What hangs at the bench first, then what other programs read; among themselves as they came. */
export function benchFirst<One extends { readonly file: string }>(papers: readonly One[]): readonly One[] {
  const isBook = (paper: One): boolean => paper.file.endsWith(".pdf");
  return [...papers.filter(isBook), ...papers.filter((paper) => !isBook(paper))];
}
