// @vitest-environment jsdom
import { render, screen } from "@testing-library/svelte";
import { describe, expect, it, vi } from "vitest";
import Flag from "./Flag.svelte";
import Slider from "./Slider.svelte";

describe("a finding's shape", () => {
  it.each(["stop", "warn", "note"] as const)("is its own for a %s, and dashed when stale", (severity) => {
    const { container } = render(Flag, { severity, figure: 3, stale: true });
    expect(container.querySelector(`svg.${severity}.stale text`)?.textContent).toBe("3");
  });

  it("differs by more than colour", () => {
    const shapes = (["stop", "warn", "note"] as const).map((severity) => render(Flag, { severity, figure: 1 }).container.querySelector("path")?.getAttribute("d"));
    expect(new Set(shapes).size).toBe(3);
  });
});

vi.stubGlobal("ResizeObserver", class { observe(): void {} unobserve(): void {} disconnect(): void {} }); // jsdom has none

describe("a slider", () => {
  it("goes by its step under the arrow keys, and stays within its ends", () => {
    const change = vi.fn();
    render(Slider, { label: "apart", start: "together", end: "apart", value: 0, most: 1, step: 0.1, ticks: 10, change });
    const thumb = screen.getByRole("slider", { name: "apart" });
    thumb.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
    thumb.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowLeft", bubbles: true }));
    expect(change.mock.calls).toEqual([[0.1], [0]]);
  });
});
