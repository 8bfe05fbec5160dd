"""A garment file: one wearer, one recipe, its dials and cloth, and what fittings have changed in it since."""
