"""Sleeves: the armhole walked all round, the cap drawn to it, the arm below, and the pieces set into the bodice."""
