"""From pieces to cloth: how they lie on it, how much of it is needed, and what to buy."""
