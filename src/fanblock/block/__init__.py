"""The block: the flat sheet that a wearer's measures make, half a body, before any garment."""
