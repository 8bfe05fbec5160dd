"""Drawings read back: what a maker moved on a pattern in her own editor, as positions on the block that serve any body."""
