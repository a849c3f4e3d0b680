"""Changes of a job as the page asks for them, worked out on its text, and its answers; no server is known here."""
