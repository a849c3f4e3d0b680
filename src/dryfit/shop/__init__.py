"""What the maker owns and can hold to: the shop file, and a small shop to go on with where there is none."""
