"""The steps of a recipe: one file a step, and the literal table that names them."""
