"""The draft: a block with a garment's lines drawn on it, and the acts of slicing and truing it."""
