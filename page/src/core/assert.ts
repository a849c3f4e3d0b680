/** Fails to compile where a union gains a member that a switch does not know; throws where data lies. */
export function assertNever(value: never): never {
  throw new Error(`not expected: ${JSON.stringify(value)}`);
}
