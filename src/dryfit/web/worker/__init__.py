"""The slow work in a process of its own, and the server's side of it."""
