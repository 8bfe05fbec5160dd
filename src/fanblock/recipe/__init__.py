"""Recipes: what a person writes, read into steps with every word checked, and written back in full."""
