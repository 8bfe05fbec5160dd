"""Lines that somebody drew in a vector editor, read at true scale."""
