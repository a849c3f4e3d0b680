import { expect, it } from "vitest";
import { latest } from "./latest";

it("asks one at a time, and of those asked meanwhile only the latest", async () => {
  const asked: number[] = [];
  const told: number[] = [];
  let answer: () => void = () => undefined;
  const ask = latest<number, number>(
    (value) => {
      asked.push(value);
      return new Promise((resolve) => (answer = () => resolve(value)));
    },
    (value) => told.push(value),
    () => undefined,
  );
  for (const value of [1, 2, 3, 4]) ask(value);
  expect(asked).toEqual([1]);
  answer();
  await new Promise((resolve) => setTimeout(resolve));
  expect(asked).toEqual([1, 4]);
  answer();
  await new Promise((resolve) => setTimeout(resolve));
  expect(told).toEqual([1, 4]);
});

it("goes on after a failure", async () => {
  const told: number[] = [];
  let failures = 0;
  const ask = latest<number, number>((value) => (value === 1 ? Promise.reject(new Error("no")) : Promise.resolve(value)), (value) => told.push(value), () => (failures += 1));
  ask(1);
  ask(2);
  await new Promise((resolve) => setTimeout(resolve));
  expect([failures, told]).toEqual([1, [2]]);
});
