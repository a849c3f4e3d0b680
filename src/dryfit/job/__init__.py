"""What the client wants: the job file, its arithmetic, its places, reading it and writing it back."""
