"""Two halves of one body: drafted apart, mirrored, joined to one pattern, and looked at where they meet."""
