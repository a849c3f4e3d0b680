"""The job's files as the page holds them: its text, what is cut, the history, and what is done with them in order."""
