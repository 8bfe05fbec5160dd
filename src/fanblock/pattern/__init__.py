"""The model of a pattern: panels, edges, marks, and which edge is sewn to which."""
