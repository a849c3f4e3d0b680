import "@testing-library/svelte/vitest";
