"""Proving a recipe: drafted for many bodies, counted and told for how many the drawing is sound."""
