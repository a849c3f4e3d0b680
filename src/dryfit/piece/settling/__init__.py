"""What may move when boards are put together, and which way locked joints are settled."""
