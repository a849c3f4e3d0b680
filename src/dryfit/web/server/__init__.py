"""The server of the page: who may speak to it, what it is asked and how it answers."""
